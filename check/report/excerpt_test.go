package report_test

import (
	"strings"
	"testing"
	"unicode"

	"golang.org/x/text/width"

	"hame/check/report"
	"hame/lang/finding"
	"hame/lang/source"
)

// excerptOf is the marked line and the line of marks of a finding there.
func excerptOf(t testing.TB, text string, start, end int) (line, marks string) {
	t.Helper()
	f := source.New("x.hame", text)
	run := report.Run{Files: []*source.File{f}, Findings: []finding.Finding{{
		Rule: "text/syntax", Severity: finding.Error, Message: "m",
		At: finding.Place{File: f, Span: source.Span{Start: start, End: end}},
	}}}
	lines := strings.Split(write(t, report.Human, report.Options{}, run), "\n")
	_, line, _ = strings.Cut(lines[1], "|")
	_, marks, _ = strings.Cut(lines[2], "|")
	return strings.TrimPrefix(line, " "), strings.TrimPrefix(marks, " ")
}

// marked is what the carets stand under, counted in columns of a terminal as
// Unicode's East Asian Width (UAX #11) gives them.
func marked(line, marks string) string {
	first, last := strings.Index(marks, "^"), strings.LastIndex(marks, "^")
	var b strings.Builder
	column, inside := 0, false
	for _, r := range line {
		accent := unicode.In(r, unicode.Mn, unicode.Me)
		if inside = accent && inside || !accent && column >= first && column <= last; inside {
			b.WriteRune(r)
		}
		switch k := width.LookupRune(r).Kind(); {
		case accent:
		case k == width.EastAsianWide || k == width.EastAsianFullwidth:
			column += 2
		default:
			column++
		}
	}
	return b.String()
}

func TestMarksStandUnderTheSpan(t *testing.T) {
	for name, c := range map[string]struct{ before, span, after, want string }{
		"plain":         {"wire ", "w1", " a -> b", "w1"},
		"tabs":          {"\t\twire\t", "w1", "", "w1"},
		"wide":          {"# 日本 ", "日", "本", "日"},
		"accents":       {"# e\u0301 ", "e\u0301", " x", "e\u0301"},
		"escape":        {"\x1b[31m ", "w1", "", "w1"},
		"bad UTF-8":     {"\xff\xfe ", "w1", "\xff", "w1"},
		"long":          {strings.Repeat("x", 5000) + " ", "w1", strings.Repeat("y", 5000), "w1"},
		"long and wide": {strings.Repeat("日", 3000), "w1", strings.Repeat("本", 3000), "w1"},
		"200 before":    {strings.Repeat("x", 200), "w1", "", "w1"},
		"150 before":    {strings.Repeat("x", 150), "w1", strings.Repeat("y", 300), "w1"},
		"with return":   {"wire ", "w1", "\r", "w1"},
	} {
		line, marks := excerptOf(t, c.before+c.span+c.after+"\nnext", len(c.before), len(c.before)+len(c.span))
		if got := marked(line, marks); got != c.want {
			t.Errorf("%s: marked %q, want %q\n%s\n%s", name, got, c.want, line, marks)
		}
		if n := len(marks); n > 170 {
			t.Errorf("%s: %d columns of marks", name, n)
		}
	}
}

func TestLongLinesAreCut(t *testing.T) {
	long := strings.Repeat("a", 1000) + "HERE" + strings.Repeat("b", 1<<20)
	line, marks := excerptOf(t, long, 1000, 1004)
	if !strings.HasPrefix(line, "…") || !strings.HasSuffix(line, "…") {
		t.Errorf("a cut is not shown: %s", line)
	}
	if n := len([]rune(line)); n < 100 || n > 162 {
		t.Errorf("%d columns", n)
	}
	if got := marked(line, marks); got != "HERE" {
		t.Errorf("marked %q", got)
	}
	short, _ := excerptOf(t, strings.Repeat("a", 160), 0, 1)
	if strings.Contains(short, "…") || len(short) != 160 {
		t.Errorf("a line that fits is cut: %s", short)
	}
}

func TestEndlessSpanIsCut(t *testing.T) {
	text := strings.Repeat("{", 100_000)
	line, marks := excerptOf(t, text, 0, len(text))
	if !strings.HasSuffix(line, "…") || len(marks) > 160 {
		t.Errorf("%d columns of marks under %s", len(marks), line)
	}
}

func TestSpanOverSeveralLines(t *testing.T) {
	line, marks := excerptOf(t, "mode m {\n key on\n}", 0, 18)
	if line != "mode m {" || marks != "^^^^^^^^" {
		t.Errorf("%s\n%s", line, marks)
	}
	if _, marks := excerptOf(t, "mode", 4, 4); marks != "    ^" {
		t.Errorf("an empty span at the end is marked %q", marks)
	}
}

// A file may hold anything; what is printed of it must not drive a terminal.
func TestNothingHostileIsPrinted(t *testing.T) {
	hostile := "\x1b]0;title\x07\x1b[2J\x00\x7f\u202e\u2066\u200b\u2028\u0085\ufeff\xff\r\v\f" + strings.Repeat("\u0301", 5000)
	for start := range 20 {
		f := source.New("a\x1b[31m\n.hame", hostile)
		run := report.Run{Files: []*source.File{f}, Findings: []finding.Finding{{
			Rule: "text/syntax", Message: hostile, At: finding.Place{File: f, Span: source.Span{Start: start, End: start + 3}},
			Subject: hostile, Mode: hostile, Figures: []string{hostile}, Source: hostile, Unit: hostile,
			Measured: finding.Amount(1), Needs: []finding.Need{{Name: hostile, Setting: hostile}},
			Related: []finding.Related{{Message: hostile}}, Allowed: &finding.Allowed{Because: hostile, Until: hostile},
			Fix: &finding.Fix{Title: hostile, Edits: []finding.Edit{{Place: finding.Place{File: f}, Text: hostile}}},
		}}}
		for _, name := range []string{"human", "line", "junit"} {
			out := write(t, report.Writers[name], report.Options{}, run)
			for _, r := range out {
				if r != '\n' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028') || r == unicode.ReplacementChar {
					t.Fatalf("%s prints %U", name, r)
				}
			}
		}
	}
}

func FuzzHuman(f *testing.F) {
	f.Add("wire w1\t日本 \x1b", 5, 9)
	f.Add(strings.Repeat("x", 2000)+"é", 2000, 2002)
	f.Fuzz(func(t *testing.T, text string, start, end int) {
		if len(text) > 1<<16 {
			t.Skip()
		}
		line, marks := excerptOf(t, text+" ", start, end)
		if !strings.Contains(marks, "^") || strings.Trim(marks, " ^") != "" {
			t.Errorf("marks %q under %q", marks, line)
		}
		if len(marks) > 2*160 {
			t.Errorf("%d columns of marks", len(marks))
		}
	})
}
