package report

import (
	"hame/lang/finding"
)

// The parts of SARIF 2.1.0 that are written, named as in the standard.

type sarifLog struct {
	Schema  string     `json:"$schema"`
	Version string     `json:"version"`
	Runs    []sarifRun `json:"runs"`
}

type sarifRun struct {
	Tool        sarifTool         `json:"tool"`
	Invocations []sarifInvocation `json:"invocations"`
	Artifacts   []sarifArtifact   `json:"artifacts"`
	Results     []sarifResult     `json:"results"`
	ColumnKind  string            `json:"columnKind"`
}

type sarifTool struct {
	Driver sarifDriver `json:"driver"`
}

type sarifDriver struct {
	Name            string      `json:"name"`
	Version         string      `json:"version,omitempty"`
	SemanticVersion string      `json:"semanticVersion,omitempty"`
	Rules           []sarifRule `json:"rules"`
}

type sarifInvocation struct {
	ExecutionSuccessful bool `json:"executionSuccessful"`
}

type sarifRule struct {
	ID         string              `json:"id"`
	Short      sarifMessage        `json:"shortDescription"`
	Full       *sarifMessage       `json:"fullDescription,omitempty"`
	Help       *sarifMessage       `json:"help,omitempty"`
	Default    sarifConfiguration  `json:"defaultConfiguration"`
	Properties sarifRuleProperties `json:"properties"`
}

type sarifRuleProperties struct {
	Tags   []string `json:"tags"`
	Safety bool     `json:"safety"`
	Since  string   `json:"since,omitempty"`
}

type sarifConfiguration struct {
	Level string `json:"level"`
}

type sarifMessage struct {
	Text string `json:"text"`
}

func sarifMessageOf(text string) *sarifMessage {
	if text == "" {
		return nil
	}
	return &sarifMessage{text}
}

type sarifArtifact struct {
	Location sarifFile `json:"location"`
	Length   int       `json:"length"`
}

type sarifFile struct {
	URI   string `json:"uri"`
	Index *int   `json:"index,omitempty"`
}

type sarifResult struct {
	RuleID       string             `json:"ruleId"`
	RuleIndex    *int               `json:"ruleIndex,omitempty"`
	Kind         string             `json:"kind"`
	Level        string             `json:"level"`
	Message      sarifMessage       `json:"message"`
	Locations    []sarifLocation    `json:"locations"`
	Related      []sarifLocation    `json:"relatedLocations,omitempty"`
	Suppressions []sarifSuppression `json:"suppressions"`
	Fixes        []sarifFix         `json:"fixes,omitempty"`
	Properties   sarifProperties    `json:"properties"`
}

type sarifLocation struct {
	ID       int            `json:"id,omitempty"`
	Physical *sarifPhysical `json:"physicalLocation,omitempty"`
	Logical  []sarifLogical `json:"logicalLocations,omitempty"`
	Message  *sarifMessage  `json:"message,omitempty"`
}

type sarifLogical struct {
	Name string `json:"name"`
}

func sarifLogicalOf(subject string) []sarifLogical {
	if subject == "" {
		return nil
	}
	return []sarifLogical{{subject}}
}

type sarifPhysical struct {
	Artifact sarifFile   `json:"artifactLocation"`
	Region   sarifRegion `json:"region"`
}

type sarifRegion struct {
	StartLine   int `json:"startLine"`
	StartColumn int `json:"startColumn"`
	EndLine     int `json:"endLine"`
	EndColumn   int `json:"endColumn"`
	ByteOffset  int `json:"byteOffset"`
	ByteLength  int `json:"byteLength"`
}

type sarifSuppression struct {
	Kind          string `json:"kind"`
	Status        string `json:"status"`
	Justification string `json:"justification,omitempty"`
}

// sarifSuppressionsOf is an empty list where nothing is allowed: a result
// without the list would say that nobody knows.
func sarifSuppressionsOf(a *finding.Allowed) []sarifSuppression {
	if a == nil {
		return []sarifSuppression{}
	}
	return []sarifSuppression{{"inSource", "accepted", becauseText(a)}}
}

type sarifFix struct {
	Description sarifMessage  `json:"description"`
	Changes     []sarifChange `json:"artifactChanges"`
}

type sarifChange struct {
	Artifact     sarifFile          `json:"artifactLocation"`
	Replacements []sarifReplacement `json:"replacements"`
}

type sarifReplacement struct {
	Deleted  sarifRegion  `json:"deletedRegion"`
	Inserted sarifContent `json:"insertedContent"`
}

type sarifContent struct {
	Text string `json:"text"`
}

// sarifProperties is the bag of what the standard has no field for.
type sarifProperties struct {
	Severity string     `json:"severity"`
	Mode     string     `json:"mode,omitempty"`
	Measured number     `json:"measured"`
	Limit    number     `json:"limit"`
	Unit     string     `json:"unit,omitempty"`
	Source   string     `json:"source,omitempty"`
	Needs    []jsonNeed `json:"needs,omitempty"`
}

func sarifPropertiesOf(f finding.Finding) sarifProperties {
	out := sarifProperties{
		Severity: f.Severity.String(), Mode: f.Mode, Measured: number{f.Measured},
		Limit: number{f.Limit}, Unit: f.Unit, Source: f.Source,
	}
	for _, n := range f.Needs {
		out.Needs = append(out.Needs, jsonNeed(n))
	}
	return out
}
