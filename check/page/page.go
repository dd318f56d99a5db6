// Package page makes the one page to look at: the drawings, the findings and all
// sheets of a harness in one file, in which a reader picks a mode, points at a
// wire and follows a finding. Without its script it is a plain page of sheets.
package page

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"strings"

	"hame/check/print"
	"hame/check/sheet"
	"hame/check/sheets"
)

//go:embed page.js
var script string

//go:embed page.css
var style string

//go:embed controls.html
var controlsText string

var controlsTemplate = template.Must(template.New("controls").Parse(controlsText))

// Write writes the page of a pack: what to look at first, then the sheets.
func Write(to io.Writer, p *sheets.Pack, made []*sheet.Sheet) error {
	told := tell(p)
	data, err := json.Marshal(told)
	if err != nil {
		return fmt.Errorf("the modes cannot be told: %w", err)
	}
	var controls strings.Builder
	if err := controlsTemplate.Execute(&controls, told); err != nil {
		return err
	}
	return print.HTML(to, p.Head(), append([]*sheet.Sheet{look(p)}, made...), print.HTMLOptions{
		// JSON as Go writes it holds no `<`, so that it cannot end the script.
		Script:   strings.Replace(script, "MODES", string(data), 1),
		Style:    style,
		Controls: template.HTML(controls.String()),
	})
}
