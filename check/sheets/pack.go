// Package sheets makes every paper of one checked harness: what to cut, crimp,
// buy, label, install, measure and keep. All are made from the same run, so that
// no paper can disagree with another.
package sheets

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"path"
	"strings"

	"hame/check"
	"hame/check/facts"
	"hame/check/figures"
	"hame/check/report"
	"hame/check/sheet"
	"hame/lang/finding"
	"hame/lang/harness"
)

// Options are what the asker may set.
type Options struct {
	Date  string  // printed on every page, as 2027-05-31; "" prints none
	Mode  string  // shown in drawings; "" shows none
	Paper string  // that drawings are made for: a4 or letter; "" takes a4
	StepM float64 // cut lengths are rounded up to whole steps of it; 0 takes 10 mm
}

// defaultStepM is a step that a bench can cut to.
const defaultStepM = 0.01

// Pack is what the sheets are made from: one run that has a harness.
type Pack struct {
	Run     *check.Run
	Harness *harness.Harness
	Facts   *facts.Facts
	Figures *figures.Figures
	Options Options
}

// NewPack takes a run whose Harness is not nil.
func NewPack(run *check.Run, o Options) *Pack {
	if o.StepM <= 0 {
		o.StepM = defaultStepM
	}
	return &Pack{Run: run, Harness: run.Harness, Facts: run.Facts, Figures: run.Figures, Options: o}
}

// CutM is a wire's length rounded up to a whole step; ok is false where it is
// not known. Only what a binary figure cannot hold is taken off first.
func (p *Pack) CutM(w *harness.Wire) (lengthM float64, ok bool) {
	const dust = 1e-9
	return math.Ceil(w.LengthM/p.Options.StepM-dust) * p.Options.StepM, w.HasLength
}

// NewWires are the wires to be made, in the order of the text: the machine's own
// are left out.
func (p *Pack) NewWires() []*harness.Wire {
	var list []*harness.Wire
	for _, w := range p.Harness.Wires {
		if !w.Existing {
			list = append(list, w)
		}
	}
	return list
}

// NewDevices are the devices to be bought and fitted, in the order of the text.
func (p *Pack) NewDevices() []*harness.Device {
	var list []*harness.Device
	for _, d := range p.Harness.Devices {
		if !d.Existing {
			list = append(list, d)
		}
	}
	return list
}

// Head is what stands on every page.
func (p *Pack) Head() sheet.Head {
	h := sheet.Head{Harness: p.Harness.Name, Title: p.Harness.Title, Practice: p.Harness.Practice, Date: p.Options.Date, Hash: p.hash()}
	if h.Title == "" {
		h.Title = h.Harness
	}
	if len(p.Run.Files) > 0 {
		h.File = p.FileName(p.Run.Files[0].Name)
	}
	for _, f := range p.Run.Findings {
		switch {
		case f.Allowed != nil:
		case f.Severity == finding.Error:
			h.Errors++
		case f.Severity == finding.Open && report.Safety(f.Rule):
			h.Open++
		}
	}
	return h
}

// FileName is a file's name as papers have it: from the harness's folder on, and
// of what stands elsewhere its last part. Wherever the folder stands, it has the
// same papers, and none tells how somebody's disk is parted.
func (p *Pack) FileName(name string) string {
	dir := path.Dir(p.Run.Files[0].Name)
	if below, ok := strings.CutPrefix(name, dir+"/"); ok {
		return below
	}
	if dir == "." && !path.IsAbs(name) && !strings.HasPrefix(name, "../") {
		return name
	}
	return path.Base(name)
}

// hash is over the names and texts of all files, each closed by a zero byte, so
// that no two packs of files run together to the same bytes.
func (p *Pack) hash() string {
	sum := sha256.New()
	for _, f := range p.Run.Files {
		for _, part := range []string{p.FileName(f.Name), f.Text} {
			_, _ = sum.Write([]byte(part)) // a hash never fails
			_, _ = sum.Write([]byte{0})
		}
	}
	return hex.EncodeToString(sum.Sum(nil))
}
