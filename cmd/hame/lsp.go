package main

import (
	"context"
	"errors"

	"hame/lsp"
)

// lspVerb is hame lsp.
type lspVerb struct {
	Stdio bool `help:"Speak over standard input and output, as is done anyway."`
}

// Run serves one editor until it leaves. One that leaves without a shutdown
// makes the exit status 1, as the protocol asks for.
func (lspVerb) Run(s *session) error {
	err := lsp.Serve(context.Background(), s.in, s.out)
	if errors.Is(err, lsp.ErrNotShutDown) {
		return status(statusFindings)
	}
	return err
}
