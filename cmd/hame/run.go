package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"hame/check/report"
	"hame/lang/kinds"
)

// The exit statuses.
const (
	statusClean    = 0
	statusFindings = 1
	statusFailed   = 2 // the command could not do its work
)

// cli has the verbs, one a file.
type cli struct {
	Check    checkVerb    `cmd:"" help:"Check harness files, and folders of them."`
	Why      whyVerb      `cmd:"" help:"Print the calculation note of one name."`
	Size     sizeVerb     `cmd:"" help:"Choose the gauges of wires that have none yet."`
	Sheet    sheetVerb    `cmd:"" help:"Print the sheets of a harness: cut list, ends, panel, tests and more."`
	Readings readingsVerb `cmd:"" help:"Take a filled-in test sheet back."`
	Draw     drawVerb     `cmd:"" help:"Draw the wiring diagram or the layout of a harness."`
	Fmt      fmtVerb      `cmd:"" help:"Set harness files in their one look."`
	Lsp      lspVerb      `cmd:"" help:"Serve an editor."`
	Rules    rulesVerb    `cmd:"" help:"List the rules, or explain one."`
	Kinds    kindsVerb    `cmd:"" help:"List the kinds and their settings, or explain one."`
	Version  versionVerb  `cmd:"" help:"Print the version."`
	Help     helpVerb     `cmd:"" help:"Explain the command, or one verb."`
}

// session is what a verb works with. Nothing else of the process is touched,
// so that tests can drive every verb.
type session struct {
	in       io.Reader
	out, err io.Writer
	env      func(string) string
}

// status is an exit status that is no failure of the command itself.
type status int

func (s status) Error() string { return fmt.Sprintf("exit status %d", int(s)) }

// run runs the command and gives its exit status.
func run(args []string, in io.Reader, out, err io.Writer, env func(string) string) int {
	s := &session{in: in, out: out, err: err, env: env}
	failure := s.dispatch(args)
	var ended status
	switch {
	case failure == nil:
		return statusClean
	case errors.As(failure, &ended):
		return int(ended)
	}
	for line := range strings.SplitSeq(failure.Error(), "\n") {
		_, _ = fmt.Fprintf(err, "hame: %s\n", report.Plain(line))
	}
	return statusFailed
}

func (s *session) dispatch(args []string) error {
	args, err := rewritten(args)
	if err != nil {
		return err
	}
	var c cli
	parser, err := kong.New(&c, kong.Name("hame"), kong.NoDefaultHelp(), kong.Writers(s.out, s.err))
	if err != nil {
		return err
	}
	ctx, err := parser.Parse(args)
	if err != nil {
		return fmt.Errorf("%s\nsee: hame help %s", report.Plain(err.Error()), args[0])
	}
	return ctx.Run(s)
}

// rewritten turns what people try first into verbs: --help anywhere,
// --version, and nothing at all. A wrong verb is named.
func rewritten(args []string) ([]string, error) {
	if len(args) == 0 {
		return nil, errors.New("what shall be done? To check the files below this folder: hame check .\nall verbs: hame help")
	}
	verb := args[0]
	switch {
	case verb == "--version" || verb == "-V":
		return []string{"version"}, nil
	case verb == "--help" || verb == "-h":
		return []string{"help"}, nil
	case !slices.Contains(verbNames(), verb):
		return nil, noVerb(verb)
	case verb != "help" && asksHelp(args):
		return []string{"help", verb}, nil
	}
	return args, nil
}

func asksHelp(args []string) bool {
	if end := slices.Index(args, "--"); end >= 0 {
		args = args[:end]
	}
	return slices.Contains(args, "--help") || slices.Contains(args, "-h")
}

func noVerb(word string) error {
	word = report.Plain(word)
	if strings.HasSuffix(word, ".hame") {
		return fmt.Errorf("`%s` is no verb; to check that file: hame check %s", word, word)
	}
	return fmt.Errorf("there is no verb `%s`%s\nall verbs: hame help", word, kinds.DidYouMean(word, verbNames()))
}

// verbNames are the verbs in the order that help tells them.
func verbNames() []string {
	var names []string
	for _, p := range helpPages {
		names = append(names, p.verb)
	}
	return names
}
