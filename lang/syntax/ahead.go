package syntax

import "hame/lang/beside"

// worthHelp is the size in bytes from which a text is read from two places at
// once.
const worthHelp = 16 << 10

// readAhead has the second half of a text read beside the first, as if nothing
// stood before it. Whoever comes there takes over what is read the same wherever
// it stands, as from a text before an edit: see piece.
func (r *reader) readAhead() {
	r.meet = len(r.toks) / 2
	for r.meet < len(r.toks) && !(r.startsLine(r.meet) && r.plain(r.meet)) {
		r.meet++
	}
	if r.meet == len(r.toks) {
		return
	}
	helper := newReader(r.src)
	helper.toks, helper.from, helper.at = r.toks, r.meet, r.meet
	helper.out.Tokens, helper.out.Comments = r.toks, r.out.Comments
	group := beside.New()
	group.Go(helper.file)
	r.ahead = func() *File {
		group.Wait() // and panics where the helper did
		return helper.out
	}
}
