package format_test

import (
	"fmt"
	goformat "go/format"
	"os"
	"strings"
	"testing"

	format "hame/fmt"
	"hame/lang/source"
)

var sizes = []struct {
	name  string
	bytes int
}{{"10KB", 10 << 10}, {"100KB", 100 << 10}, {"1MB", 1 << 20}}

// hameText is a harness of about so many bytes: the taught one again and again,
// half of it with its blanks squeezed.
func hameText(b *testing.B, size int) string {
	one, err := os.ReadFile("../lang/syntax/testdata/good/sap_hauler.hame")
	if err != nil {
		b.Fatal(err)
	}
	var all strings.Builder
	for i := 0; all.Len() < size; i++ {
		text := string(one)
		if i%2 == 1 {
			text = strings.ReplaceAll(text, "  ", " ")
		}
		all.WriteString(text)
	}
	return all.String()
}

// goText is a Go file of about so many bytes: tables, structs and functions, as
// unevenly spaced as the harness.
func goText(size int) string {
	var all strings.Builder
	all.WriteString("package bench\n")
	for i := 0; all.Len() < size; i++ {
		fmt.Fprintf(&all, goPiece, i, i, i, i)
	}
	return all.String()
}

const goPiece = `
// record%d is one row of a table.
type record%d struct {
	name string // what it is called
	length float64 // metres
	gauge, colour  string
}

// table%d has the rows.
var table = []record{
	{name: "trunk", length:  0.9, gauge: "2.5", colour: "red"}, // first
	{name: "rail",   length: 1.6, gauge: "10", colour: "black"},
}

func sum%d(rows []record) (total float64, err error) {
	for i, r := range rows {
		if r.length < 0 { return 0, errors.New("row " + strconv.Itoa(i) + " is negative") }
		total += r.length*float64(len(r.name)) + 2*(total - 1)
	}
	return total, nil
}
`

func BenchmarkSource(b *testing.B) {
	for _, size := range sizes {
		b.Run(size.name, func(b *testing.B) {
			f := source.New("t.hame", hameText(b, size.bytes))
			b.SetBytes(int64(len(f.Text)))
			for b.Loop() {
				if _, err := format.Source(f); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A text with a mistake goes through the parser too.
func BenchmarkSourceWithMistake(b *testing.B) {
	f := source.New("t.hame", hameText(b, 100<<10)+"wire w ~\n")
	b.SetBytes(int64(len(f.Text)))
	for b.Loop() {
		if _, err := format.Source(f); err != nil {
			b.Fatal(err)
		}
	}
}

// The yardstick: go/format on Go text of the same size.
func BenchmarkGoFormat(b *testing.B) {
	for _, size := range sizes {
		b.Run(size.name, func(b *testing.B) {
			text := []byte(goText(size.bytes))
			b.SetBytes(int64(len(text)))
			for b.Loop() {
				if _, err := goformat.Source(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
