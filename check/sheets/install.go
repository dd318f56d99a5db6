package sheets

import (
	"fmt"
	"math"
	"strings"

	"hame/check/rules"
	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

var _ = register(Maker{
	Name: "install", Title: "Installation",
	Summary: "What to do where, place by place: mounting, clamps, grommets, clearances, covers, drip loops, threads",
	Make:    install,
})

const installWarning = "Do not drill, tap, cut or weld roll-over structure (posts, canopy, cab), seat and seat-belt mounts, frame flanges, tanks or lines: clamp instead. " +
	"Look behind before you drill. Never tie wiring to fuel, brake or hydraulic lines. " +
	"Work with the battery's negative off; set the brake, block the wheels, lower what hangs, and let hot parts cool."

const installWays = "Route above and away from fuel and battery acid, clear of steps, pedals and belts. Leave slack where something steers, tilts or folds. " +
	"Tie before a joint as well as behind it, so that no terminal carries a pull. Bare metal under a ring: clean it bright, seat the ring flat on it, then seal it (common practice)."

func install(p *Pack) *sheet.Sheet {
	w := &installWork{Pack: p, asked: rules.Ask(p.Facts)}
	s := &sheet.Sheet{}
	s.Add(sheet.Text{Words: installWarning, Weight: sheet.Warning}, sheet.Text{Words: installWays})
	seen := map[*harness.Bundle]bool{}
	for _, at := range walk(p.Harness) {
		if steps := w.placeSteps(at); len(steps) > 0 {
			s.Add(sheet.Heading{Words: "At " + placeWords(at)}, sheet.Steps{Items: steps})
		}
		for _, b := range at.Bundles {
			if !seen[b] && len(w.fresh(b)) > 0 {
				seen[b] = true
				s.Add(sheet.Heading{Words: runTitle(b)}, sheet.Steps{Items: w.runSteps(b)})
			}
		}
	}
	if steps := w.mount(p.unplaced()); len(steps) > 0 {
		s.Add(sheet.Heading{Words: "No place is declared"}, sheet.Steps{Items: steps})
	}
	if t := w.threads(); len(t.Rows) > 0 {
		s.Add(sheet.Heading{Words: "Threads, drills and torque"}, t, small(threadNote))
	}
	s.Add(sheet.Heading{Words: "Before the battery goes on"}, sheet.Steps{Items: lastSteps})
	return s
}

const threadNote = "Tap drill: for a thread of about 75 %, only where a thread is cut into metal that may be drilled. Torque: a guide for plain steel or brass studs, dry; the part's maker comes first. Both from memory of the usual tables. A battery's lead post is soft: its maker's figure alone."

var lastSteps = []sheet.Step{
	{Words: "Each fuse has the rating of the protection schedule; none is bridged."},
	{Words: "No bare end, no loose ring, no boot left off; each spare end is capped."},
	{Words: "Nothing rubs, nothing is taut, and whatever steers, tilts or folds has been moved to both ends of its travel."},
	{Words: "The tests before power are done (sheet: tests)."},
}

type installWork struct {
	*Pack
	asked rules.Asked
}

// unplaced lists the new devices that no place is said for.
func (p *Pack) unplaced() []*harness.Device {
	var all []*harness.Device
	for _, d := range p.NewDevices() {
		if d.At == nil {
			all = append(all, d)
		}
	}
	return all
}

// placeSteps is what is done at a place: what is new there, and what of the
// machine's own is live and stands bare.
func (w *installWork) placeSteps(at *harness.Place) []sheet.Step {
	var here []*harness.Device
	for _, d := range w.Harness.Devices {
		if d.At == at {
			here = append(here, d)
		}
	}
	steps := append(w.mount(here), w.covers(here)...)
	if len(steps) == 0 || at.Zone == nil {
		return steps
	}
	z := at.Zone
	if z.Exposed["wet"] || z.Exposed["splash"] {
		steps = append(steps, sheet.Step{Words: "Drip loop: let every wire and loom hang lower than where it goes into a device or box, entries to the side or below.", Detail: "the zone is " + wetWord(z)})
	}
	if z.Exposed["fuel"] {
		steps = append(steps, sheet.Step{Words: "Fuel vapour may gather here: fit nothing that sparks unless it is made for it, and air the place before power is put on."})
	}
	return steps
}

func wetWord(z *harness.Zone) string {
	if z.Exposed["wet"] {
		return "wet"
	}
	return "splashed"
}

// mount is a step for each new device that is fastened somewhere.
func (w *installWork) mount(list []*harness.Device) []sheet.Step {
	var steps []sheet.Step
	for _, d := range list {
		if d.Existing || d.Is(kinds.Join, "splice") || d.Is(kinds.Supply, "tap") {
			continue
		}
		steps = append(steps, sheet.Step{Words: mountWords(d), Detail: mountDetail(d)})
	}
	return steps
}

func mountWords(d *harness.Device) string {
	words := "Fit " + d.Name + " (" + d.Kind.Title() + ")"
	switch {
	case d.Is(kinds.Ground):
		words = "Set " + d.Name + " (" + d.Kind.Title() + ")"
		if to := d.Word("to"); to != "" {
			words += " on " + to + ": bright metal under it, sealed after"
		}
	case d.Is(kinds.Join, "connector"):
		words = "Hold " + d.Name + " (" + d.Kind.Title() + ") by a clip on each side of it"
	}
	return words + "."
}

func mountDetail(d *harness.Device) string {
	var parts []string
	for _, setting := range []string{"label", "part", "note"} {
		if text := d.Word(setting); text != "" {
			parts = append(parts, setting+": "+text)
		}
	}
	code := d.Word("sealed") + d.Word("seal")
	if z := zoneOf(d); z != nil && (z.Exposed["wet"] || z.Exposed["splash"]) && !d.Is(kinds.Ground) {
		if code == "" {
			code = "no degree of protection is declared, and it is " + wetWord(z) + " here"
		}
	}
	if code != "" {
		parts = append(parts, code)
	}
	return strings.Join(parts, "; ")
}

func zoneOf(d *harness.Device) *harness.Zone {
	if d.At == nil {
		return nil
	}
	return d.At.Zone
}

// covers are the boots and lids on live metal.
func (w *installWork) covers(list []*harness.Device) []sheet.Step {
	var steps []sheet.Step
	for _, d := range list {
		var names []string
		for _, t := range d.Terminals {
			if w.asked.Metal(t) && w.asked.AlwaysLive(t) && (len(t.Wires) > 0 || d.Is(kinds.Supply, "battery")) {
				names = append(names, t.FullName())
			}
		}
		switch {
		case len(names) == 0:
		case d.Covered && d.Existing:
			steps = append(steps, sheet.Step{Words: "See that the boot, cap or lid of " + strings.Join(names, ", ") + " is on: live with every switch off."})
		case d.Covered:
			steps = append(steps, sheet.Step{Words: "Boot, cap or lid on " + strings.Join(names, ", ") + ": live with every switch off."})
		default:
			steps = append(steps, sheet.Step{Words: "NO COVER is declared for " + strings.Join(names, ", ") + ": live with every switch off. Fit a boot, cap or lid."})
		}
	}
	return steps
}

// fresh lists the new wires of a bundle.
func (w *installWork) fresh(b *harness.Bundle) []string {
	var names []string
	for _, m := range b.Members {
		if !m.Existing {
			names = append(names, m.Name)
		}
	}
	return names
}

func runTitle(b *harness.Bundle) string {
	from, to := unknown, unknown
	if b.From != nil {
		from = b.From.Name
	}
	if b.To != nil {
		to = b.To.Name
	}
	words := "Run " + b.Name + ": " + from + " to " + to
	if b.LengthM > 0 {
		words += ", " + millimetres(b.LengthM) + " mm"
	}
	return words
}

// threads lists the stud sizes of what is new, with drill and torque.
func (w *installWork) threads() *sheet.Table {
	t := &sheet.Table{Name: "threads", Columns: []sheet.Column{
		{Name: "size", Title: "size"},
		{Name: "thread", Title: "thread"},
		{Name: "tap_drill", Title: "tap drill"},
		{Name: "drill_mm", Title: "drill", Unit: "mm", Right: true},
		{Name: "torque_nm", Title: "torque", Unit: "N m", Right: true},
		{Name: "on", Title: "on"},
	}}
	on := map[string][]string{}
	for _, d := range w.Harness.Devices {
		for _, term := range d.Terminals {
			if f := term.Fitting; f.Form == kinds.Stud && f.Size != "" && hasFresh(d, term) {
				on[f.Size] = once(on[f.Size], term.FullName())
			}
		}
	}
	for _, size := range tables.StudNames() {
		if len(on[size]) == 0 {
			continue
		}
		drills := tables.TapDrills(size)
		if len(drills) == 0 {
			drills = []tables.TapDrill{{Thread: "", Drill: unknown}}
		}
		for _, d := range drills {
			t.Rows = append(t.Rows, sheet.Row{Cells: []sheet.Cell{
				sheet.Is(size), sheet.Is(d.Thread), sheet.Is(d.Drill), maybe(d.DrillMM, d.DrillMM > 0), sheet.Is(torqueWords(size)), sheet.Is(strings.Join(on[size], ", ")),
			}})
		}
	}
	return t
}

// hasFresh: the stud is new, or a new wire lands on it.
func hasFresh(d *harness.Device, t *harness.Terminal) bool {
	if !d.Existing {
		return true
	}
	for _, wire := range t.Wires {
		if !wire.Existing {
			return true
		}
	}
	return false
}

func torqueWords(size string) string {
	s, ok := tables.StudNamed(size)
	if !ok || math.IsNaN(s.TorqueLow) || math.IsNaN(s.TorqueHigh) {
		return unknown
	}
	return spread(s.TorqueLow, s.TorqueHigh)
}

// lengthMM is a length in words: "300 mm".
func lengthMM(m float64) string { return millimetres(m) + " mm" }

// clampsOn is how many clamps hold a run: one by each end, and no gap wider than
// their spacing.
func clampsOn(lengthM, everyM float64) int {
	const dust = 1e-9
	return int(math.Ceil(lengthM/everyM-dust)) + 1
}

func sourceWords(l tables.Limit) string {
	return fmt.Sprintf("%s mm, %s", wording.Number(l.Value), wording.Cited(l.Source))
}
