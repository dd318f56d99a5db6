package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite the expected output in the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"hame": main})
}

// TestScripts runs the command through its own main.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("NO_COLOR", "")
			examples, err := filepath.Abs("../../examples")
			e.Setenv("EXAMPLES", examples)
			return err
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status":   scriptStatus,
			"generate": scriptGenerate,
			"pipe":     scriptPipe,
		},
	})
}

// scriptStatus runs a command that must end with just that exit status:
// status 1 hame check x.hame.
func scriptStatus(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N command [argument…]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var exit *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// scriptGenerate writes a file of a text repeated: generate x.hame 100 "{\n".
// More pairs of a count and a text may follow.
func scriptGenerate(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 || len(args)%2 == 0 {
		ts.Fatalf("usage: generate file (count text)…")
	}
	var b strings.Builder
	for i := 1; i < len(args); i += 2 {
		count, err := strconv.Atoi(args[i])
		ts.Check(err)
		text, err := strconv.Unquote(`"` + args[i+1] + `"`)
		ts.Check(err)
		b.WriteString(strings.Repeat(text, count))
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(b.String()), 0o644))
}
