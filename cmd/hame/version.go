package main

import (
	"fmt"

	"hame/check"
)

// versionVerb is hame version.
type versionVerb struct{}

// Run prints the name and the version.
func (versionVerb) Run(s *session) error {
	_, err := fmt.Fprintln(s.out, "hame", check.Version)
	return err
}
