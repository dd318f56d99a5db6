package lsp_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

var update = flag.Bool("update", false, "write what was said into the conversations")

// TestConversations holds every conversation in testdata. An archive has the
// files of a folder, `talk`, a line for each thing that the client does, and
// `heard`, what comes of it. A | in a text is where the cursor stands.
func TestConversations(t *testing.T) {
	paths, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no conversations: %v", err)
	}
	for _, path := range paths {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) {
			t.Parallel()
			hold(t, path)
		})
	}
}

func hold(t *testing.T, path string) {
	archive, err := txtar.ParseFile(path)
	if err != nil {
		t.Fatal(err)
	}
	dir, err := filepath.EvalSymlinks(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	talk, heard := "", -1
	for i, f := range archive.Files {
		switch f.Name {
		case "talk":
			talk = string(f.Data)
		case "heard":
			heard = i
		default:
			write(t, filepath.Join(dir, f.Name), f.Data)
		}
	}
	s := &scene{dir: dir, t: t, unit: "utf-16", shown: map[string]bool{}}
	for _, rule := range told {
		s.shown[rule] = true
	}
	for line := range strings.SplitSeq(talk, "\n") {
		s.play(line)
	}
	if s.e != nil {
		if err := s.e.leave(); err != nil {
			t.Error(err)
		}
	}
	got := s.heard.String()
	if *update {
		if heard < 0 {
			heard = len(archive.Files)
			archive.Files = append(archive.Files, txtar.File{Name: "heard"})
		}
		archive.Files[heard].Data = []byte(got)
		if err := os.WriteFile(path, txtar.Format(archive), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if heard < 0 {
		t.Fatal("nothing is said to be heard")
	}
	if diff := cmp.Diff(string(archive.Files[heard].Data), got); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
}

func write(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	content := strings.NewReplacer("␍\n", "\r\n").Replace(string(data))
	if err := os.WriteFile(path, []byte(content), 0o644); err != nil {
		t.Fatal(err)
	}
}

// scene is one conversation.
type scene struct {
	t      *testing.T
	dir    string
	unit   string
	more   string // of initialize's parameters
	e      *editor
	heard  strings.Builder
	last   json.RawMessage
	before map[string]int  // how often files were published before the last edit
	shown  map[string]bool // the rules and areas that are told of
}

// told are the rules whose findings conversations tell of. What the others find
// is for their own tests to say, and they are many and grow.
var told = []string{"text", "name", "kind", "setting", "terminal", "unit", "value", "use", "allow", "wire/undersized", "no finding"}

func (s *scene) say(format string, args ...any) { fmt.Fprintf(&s.heard, format+"\n", args...) }

// play does one line of the talk.
func (s *scene) play(line string) {
	words := strings.Fields(line)
	if len(words) == 0 || words[0][0] == '#' {
		return
	}
	switch words[0] {
	case "unit":
		s.unit = words[1]
		return
	case "with":
		s.more = ", " + strings.TrimPrefix(line, "with ")
		return
	}
	if s.e == nil {
		s.e = start(s.t, s.dir, s.unit, s.more)
	}
	s.say("> %s", line)
	verb := verbs[words[0]]
	if verb == nil {
		s.t.Fatalf("nobody knows how to %q", line)
	}
	rest := strings.TrimSpace(strings.TrimPrefix(line, words[0]))
	file, rest, _ := strings.Cut(rest, " ")
	verb(s, file, strings.TrimSpace(rest))
}

// cursor finds "text|more" in an open text.
func (s *scene) cursor(file, mark string) int {
	s.t.Helper()
	before, after, ok := strings.Cut(strings.ReplaceAll(mark, `\n`, "\n"), "|")
	at := strings.Index(s.e.texts[file], before+after)
	if !ok || at < 0 {
		s.t.Fatalf("%q does not stand in %s", mark, file)
	}
	return at + len(before)
}

func (s *scene) at(file, mark string) map[string]any {
	return map[string]any{"textDocument": s.e.doc(file), "position": s.e.position(s.e.texts[file], s.cursor(file, mark))}
}

// quoted reads the Go texts of a line: "old" "new".
func quoted(t *testing.T, line string) []string {
	var list []string
	for line = strings.TrimSpace(line); line != ""; line = strings.TrimSpace(line) {
		q, err := strconv.QuotedPrefix(line)
		if err != nil {
			t.Fatalf("%s: %v", line, err)
		}
		line = line[len(q):]
		text, err := strconv.Unquote(q)
		if err != nil {
			t.Fatalf("%s: %v", q, err)
		}
		list = append(list, text)
	}
	return list
}
