package harness

import (
	"runtime"

	"hame/lang/beside"
	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/slab"
	"hame/lang/source"
	"hame/lang/syntax"
)

// reader reads what a declaration says, as far as that hangs on nothing that is
// bound in turn. The binder's own says what is mistaken. Others read ahead, beside
// each other: they change nothing that is shared and say nothing. Where there is
// anything to say they only note it, what they made is thrown away, and the binder
// reads that declaration again when its turn comes.
type reader struct {
	*binder
	ahead  bool
	failed bool // ahead, and there was something to say

	matcher   kinds.Matcher
	seen      repeats
	args      slab.Of[kinds.Args]
	devices   slab.Of[Device]
	terminals slab.Of[Terminal]
	points    slab.Of[*Terminal]
	wireRoom  slab.Of[Wire]
}

// quiet notes that there is something to say, and reports whether this reader
// must not say it.
func (r *reader) quiet() bool {
	r.failed = r.failed || r.ahead
	return r.ahead
}

// say is the binder's say, for who may speak.
func (r *reader) say(file *source.File, span source.Span, rule, subject, format string, args ...any) *finding.Finding {
	if r.quiet() {
		return &finding.Finding{}
	}
	return r.binder.say(file, span, rule, subject, format, args...)
}

// mistake marks a fact as given with a mistake.
func (r *reader) mistake(name, setting string) {
	if !r.quiet() {
		r.binder.mistake(name, setting)
	}
}

// lookup is the binder's lookup. How often a device is named matters to nobody, so
// that it is not counted by who reads ahead.
func (r *reader) lookup(file *source.File, n syntax.Name, what string) *named {
	if !r.ahead {
		return r.binder.lookup(file, n, what)
	}
	e := r.h.names[n.Text]
	if e == nil || e.what() != what {
		r.failed = true
		return nil
	}
	return e
}

// worthwhile is from how many declarations on a second goroutine gains more than it
// takes to wake it; a turn of one goroutine takes as many of them as turn says.
const (
	worthwhile = 200
	turn       = 32
)

// readAhead has n declarations read beside each other, or none where that gains
// nothing. Where there was something to say, drop throws away what read made.
func (b *binder) readAhead(n int, read func(r *reader, i int), drop func(i int)) {
	if n < worthwhile || runtime.GOMAXPROCS(0) < 2 {
		return
	}
	beside.Each(n, turn, func() func(int) {
		r := &reader{binder: b, ahead: true}
		return func(i int) {
			r.failed = false
			if read(r, i); r.failed {
				drop(i)
			}
		}
	})
}
