package main

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// TestReadme runs every command of the README that shows its output, in a
// folder with the repository's examples and the README's own files, and
// compares. `-update` writes the README anew.
func TestReadme(t *testing.T) {
	const readme = "../../README.md"
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	root, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	if err := os.CopyFS(filepath.Join(dir, "examples"), os.DirFS(filepath.Join(root, "examples"))); err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
	got := replay(t, string(text))
	if got == string(text) {
		return
	}
	if update := flag.Lookup("update"); update != nil && update.Value.String() == "true" {
		if err := os.WriteFile(filepath.Join(root, "README.md"), []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	t.Errorf("README.md does not show what the commands print; `go test ./cmd/hame -update` writes it anew:\n%s", firstDifference(string(text), got))
}

// replay writes the README's files, runs its commands and puts what they print
// in the place of what it shows.
func replay(t *testing.T, text string) string {
	var out strings.Builder
	lines := strings.SplitAfter(text, "\n")
	for i := 0; i < len(lines); i++ {
		out.WriteString(lines[i])
		info, fenced := strings.CutPrefix(strings.TrimSpace(lines[i]), "```")
		if !fenced || info == "" {
			continue
		}
		end := i + 1
		for end < len(lines) && !strings.HasPrefix(lines[end], "```") {
			end++
		}
		body := lines[i+1 : end]
		if name, file := strings.CutPrefix(info, "hame "); file {
			if err := os.WriteFile(name, []byte(strings.Join(body, "")), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if info == "console" {
			body = console(t, body)
		}
		out.WriteString(strings.Join(body, ""))
		i = end - 1
	}
	return out.String()
}

// console runs the commands of one block.
func console(t *testing.T, body []string) []string {
	var out []string
	for _, line := range body {
		command, ok := strings.CutPrefix(line, "$ ")
		if !ok {
			continue
		}
		out = append(out, line, shell(t, strings.TrimSpace(command)))
	}
	return out
}

func shell(t *testing.T, command string) string {
	words := strings.Fields(command)
	if words[0] != "hame" {
		t.Fatalf("README runs %q: only hame is run here", command)
	}
	input := ""
	if n := len(words); n > 2 && words[n-2] == "<" {
		text, err := os.ReadFile(words[n-1])
		if err != nil {
			t.Fatal(err)
		}
		input, words = string(text), words[:n-2]
	}
	var stdout, stderr bytes.Buffer
	if status := run(words[1:], strings.NewReader(input), &stdout, &stderr, noEnv); status == 2 {
		t.Errorf("%s: %s", command, stderr.String())
	}
	return stdout.String()
}

func firstDifference(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			return "shown:  " + x[i] + "\nprints: " + y[i]
		}
	}
	return "one is longer"
}

// TestReadmeCommands: the two commands that the README starts with are what
// the module and CI really have.
func TestReadmeCommands(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	ci, err := os.ReadFile("../../.ci/run")
	if err != nil {
		t.Fatal(err)
	}
	const check, tests = "go run ./cmd/hame check examples/sap_hauler", "go test ./..."
	for _, command := range []string{check, tests} {
		if !strings.Contains(string(text), "    "+command+"\n") {
			t.Errorf("the README does not give %q", command)
		}
	}
	if !strings.Contains(string(ci), "\n"+tests+"\n") {
		t.Errorf("CI does not run %q", tests)
	}
	words := strings.Fields(check)
	cmd := exec.Command(words[0], words[1:]...)
	cmd.Dir = "../.."
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Errorf("%s: %v\n%s", check, err, out)
	}
}
