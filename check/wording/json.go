package wording

import (
	"encoding/json"
	"io"
)

// JSON writes a value for a program, in the one form that all verbs give: indented
// by two blanks, letters such as `<` as they are.
func JSON(to io.Writer, value any) error {
	e := json.NewEncoder(to)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(value)
}
