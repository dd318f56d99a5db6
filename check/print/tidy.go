package print

import (
	"fmt"

	"hame/check/draw"
)

const (
	mostItems  = 100_000 // of one picture
	mostNested = 100     // groups in groups
)

// tidy is a picture with clean texts and no more items than can be printed, and
// what is said where some are left out.
func tidy(p *draw.Picture) (*draw.Picture, string) {
	t := &tidier{}
	q := *p
	q.Name, q.Title, q.Describe = clean(p.Name), clean(p.Title), clean(p.Describe)
	q.Items = t.items(p.Items, 0)
	if t.left == 0 {
		return &q, ""
	}
	return &q, fmt.Sprintf("The drawing is too large: %d of its parts are left out here.", t.left)
}

type tidier struct{ kept, left int }

func (t *tidier) items(items []draw.Item, depth int) []draw.Item {
	var list []draw.Item
	for _, i := range items {
		if t.kept >= mostItems || depth > mostNested {
			t.left++
			continue
		}
		t.kept++
		switch i := i.(type) {
		case draw.Text:
			i = worded(i, clean(i.Words))
			list = append(list, i)
		case draw.Group:
			i.Name, i.Tip, i.Items = clean(i.Name), clean(i.Tip), t.items(i.Items, depth+1)
			list = append(list, i)
		default:
			list = append(list, i)
		}
	}
	return list
}

// worded is a text in other words, which must not run over what stands beside it:
// they were measured in the ones before.
func worded(t draw.Text, words string) draw.Text {
	const spareMM = 1 // between what stands side by side, as a rule
	if words != t.Words {
		words = draw.Cut(words, t.SizeMM, t.Bold, t.WidthMM()+spareMM)
	}
	t.Words = words
	return t
}
