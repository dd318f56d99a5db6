package syntax

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
	helper := &reader{src: r.src, text: r.text, toks: r.toks, from: r.meet, at: r.meet}
	helper.out = &File{Source: r.src, Tokens: r.toks, Comments: r.out.Comments}
	done := make(chan *File, 1)
	r.ahead = done
	go func() {
		helper.file()
		done <- helper.out
	}()
}
