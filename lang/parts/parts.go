// Package parts has the small standard library of generic parts, written in
// the language itself and shipped inside the program: use "hame:lamps".
package parts

import (
	"embed"
	"io/fs"
	"strings"
)

// Prefix starts the path of a library that ships inside the program.
const Prefix = "hame:"

//go:embed *.hame
var files embed.FS

// Read is the text of a library: Read("lamps"). The error is fs.ErrNotExist
// where there is none of that name.
func Read(name string) (string, error) {
	text, err := files.ReadFile(name + ".hame")
	if err != nil {
		return "", fs.ErrNotExist
	}
	return string(text), nil
}

// Names lists the libraries as `use` writes them, in order.
func Names() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		return nil // an embedded folder can always be read
	}
	var names []string
	for _, e := range entries {
		names = append(names, Prefix+strings.TrimSuffix(e.Name(), ".hame"))
	}
	return names
}
