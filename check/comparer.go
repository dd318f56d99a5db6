package check

import (
	"hame/lang/source"
	"hame/lang/syntax"
)

func (c *comparer) equal(yes bool) {
	if !yes {
		c.lower(other)
	}
}

// span has a place found again.
func (c *comparer) span(was, now source.Span) {
	if c.mover == nil || was == (source.Span{}) && was == now {
		return
	}
	if moved, ok := c.mover.span(was); !ok || moved != now {
		c.lower(worded)
	}
}

// written compares what could not be read, letter by letter.
func (c *comparer) written(was, now source.Span) {
	c.equal(c.was != nil && c.was.Slice(was) == c.now.Slice(now))
}

func (c *comparer) name(a, b syntax.Name, differing likeness) {
	if a.Text != b.Text {
		c.lower(differing)
	}
	c.equal(a.IsZero() == b.IsZero())
	c.span(a.Span, b.Span)
}

func (c *comparer) names(a, b []syntax.Name) {
	c.equal(len(a) == len(b))
	for i := range min(len(a), len(b)) {
		c.name(a[i], b[i], other)
	}
}

// values compares those of a setting, or of a header where there is no key.
func (c *comparer) values(a, b []syntax.Value, key string) {
	c.equal(len(a) == len(b))
	for i := range min(len(a), len(b)) {
		x, y := &a[i], &b[i]
		switch {
		case x.Kind != y.Kind:
			c.lower(other)
		case x.Text == y.Text:
		case x.Kind != syntax.Text || key == "":
			c.lower(other)
		case !unread[key]:
			c.lower(worded)
		}
		c.span(x.Span, y.Span)
	}
}

func (c *comparer) block(a, b *syntax.Block) {
	c.equal((a == nil) == (b == nil))
	if a == nil || b == nil {
		return
	}
	c.equal(a.Closed == b.Closed && len(a.Settings) == len(b.Settings))
	c.span(a.Span, b.Span)
	for i := range min(len(a.Settings), len(b.Settings)) {
		c.setting(a.Settings[i], b.Settings[i])
	}
}

func (c *comparer) setting(a, b *syntax.Setting) {
	c.span(a.Span, b.Span)
	c.name(a.Key, b.Key, other)
	c.values(a.Values, b.Values, a.Key.Text)
	c.equal(a.Broken == b.Broken)
	c.block(a.Block, b.Block)
	if a.Broken || b.Broken {
		c.written(a.Span, b.Span)
	}
}
