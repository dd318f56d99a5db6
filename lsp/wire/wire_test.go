package wire_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hame/lsp/wire"
)

func frame(body string) string { return fmt.Sprintf("Content-Length: %d\r\n\r\n%s", len(body), body) }

// all reads to the end: bodies as they are, what is malformed as "!".
func all(t *testing.T, text string) ([]string, error) {
	t.Helper()
	r := wire.NewReader(strings.NewReader(text))
	var got []string
	for {
		body, err := r.Next()
		var bad *wire.Malformed
		switch {
		case errors.As(err, &bad):
			got = append(got, "!")
		case err != nil:
			return got, err
		default:
			got = append(got, string(body))
		}
	}
}

// The base protocol as the Language Server Protocol 3.17 states it, and what a
// reader meets when the other side is broken.
func TestFrames(t *testing.T) {
	for _, c := range []struct {
		name, text, want string
		end              error
	}{
		{"nothing", "", "", io.EOF},
		{"two", frame("{}") + frame(`{"a":1}`), `{}|{"a":1}`, io.EOF},
		{"a content type", "Content-Type: application/vscode-jsonrpc; charset=utf-8\r\nContent-Length: 2\r\n\r\n{}", "{}", io.EOF},
		{"case and blanks do not count", "content-LENGTH:2  \r\n\r\n{}", "{}", io.EOF},
		{"line feeds alone", "Content-Length: 2\n\n{}", "{}", io.EOF},
		{"no length", "X: 1\r\n\r\n" + frame("{}"), "!|{}", io.EOF},
		{"no number", "Content-Length: two\r\n\r\n" + frame("{}"), "!|{}", io.EOF},
		{"below zero", "Content-Length: -2\r\n\r\n" + frame("{}"), "!|{}", io.EOF},
		{"beyond all numbers", "Content-Length: 99999999999999999999\r\n\r\n" + frame("{}"), "!|{}", io.EOF},
		{"garbage before", "hello\n\n" + frame("{}"), "!|{}", io.EOF},
		{"a body longer than announced", "Content-Length: 1\r\n\r\n{}" + frame("[]"), "{|[]", io.EOF},
		{"a body of nothing", frame("") + frame("{}"), "|{}", io.EOF},
		{"cut in the body", "Content-Length: 9\r\n\r\n{}", "", io.ErrUnexpectedEOF},
		{"cut in the header", "Content-Len", "", io.ErrUnexpectedEOF},
		{"a line without end", strings.Repeat("x", 1<<18) + frame("{}"), "{}", io.EOF},
	} {
		got, err := all(t, c.text)
		if strings.Join(got, "|") != c.want || !errors.Is(err, c.end) {
			t.Errorf("%s: %q and %v, want %q and %v", c.name, got, err, c.want, c.end)
		}
	}
}

// A message that is too long is passed over, and the next one is read.
func TestTooLong(t *testing.T) {
	long := io.LimitReader(zeros{}, wire.MaxBody+1)
	text := io.MultiReader(strings.NewReader(fmt.Sprintf("Content-Length: %d\r\n\r\n", wire.MaxBody+1)), long, strings.NewReader(frame("{}")))
	r := wire.NewReader(text)
	_, err := r.Next()
	var bad *wire.Malformed
	if !errors.As(err, &bad) {
		t.Fatalf("a message that is too long gives %v", err)
	}
	if body, err := r.Next(); err != nil || string(body) != "{}" {
		t.Errorf("after it comes %q, %v", body, err)
	}
}

type zeros struct{}

func (zeros) Read(p []byte) (int, error) { clear(p); return len(p), nil }

func TestWhatIsWrittenIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bodies := rapid.SliceOf(rapid.String()).Draw(t, "bodies")
		var stream bytes.Buffer
		w := wire.NewWriter(&stream)
		for _, b := range bodies {
			if err := w.Write([]byte(b)); err != nil {
				t.Fatal(err)
			}
		}
		r := wire.NewReader(&stream)
		for _, want := range bodies {
			got, err := r.Next()
			if err != nil || string(got) != want {
				t.Fatalf("%q came back as %q, %v", want, got, err)
			}
		}
		if _, err := r.Next(); err != io.EOF {
			t.Fatalf("the end is %v", err)
		}
	})
}
