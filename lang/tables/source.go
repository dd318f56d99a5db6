package tables

// Mark says how sure a published figure is.
type Mark string

// The marks that a table may carry.
const (
	Seen           Mark = "seen"            // read in a text that was looked up
	Memory         Mark = "memory"          // recalled, not read again
	CommonPractice Mark = "common practice" // a rule of the trade without a source
	Estimate       Mark = "estimate"        // our own figure, without a source
)

// valid tells whether m is one of the known marks.
func (m Mark) valid() bool {
	switch m {
	case Seen, Memory, CommonPractice, Estimate:
		return true
	}
	return false
}

// Source says where a figure was published.
type Source struct {
	Document string // "33 CFR 183.425"
	Clause   string // "Table 5"
	Mark     Mark
}

// String gives document and clause in one phrase: "33 CFR 183.425 Table 5".
func (s Source) String() string {
	switch {
	case s.Clause == "":
		return s.Document
	case s.Document == practice:
		return s.Document + ": " + s.Clause
	}
	return s.Document + " " + s.Clause
}

// practice is the document named where the trade has no written one.
const practice = "common practice"
