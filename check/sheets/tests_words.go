package sheets

import (
	"fmt"

	"hame/check/sheet"
	"hame/lang/tables"
)

// beforePower are the safety lines; all are common practice.
func beforePower() sheet.Steps {
	return sheet.Steps{Items: []sheet.Step{
		{Words: "Machine parked on level ground, brake on, in neutral, wheels chocked; nobody near belts, fans and shafts, no loose sleeves."},
		{Words: "Rings, watch and chains off; eye protection on; insulated tools; an extinguisher at hand; covers open and the place aired."},
		{Words: "Battery's negative off first, and on last. Never take a battery off while the engine runs: the alternator's volts go up and take modules with them."},
		{Words: "All added fuses out, all added loads unplugged, until their turn comes."},
		{Words: "First power through a small fuse (1 to 3 A) or a test lamp in the feed: a lamp that lights, or a fuse that goes, is a short. Then one circuit after the other, each with its own fuse."},
		{
			Words:  "Never crank through an ammeter, nor draw more through it than it bears: usually 10 A, and for a minute.",
			Detail: "A meter's leads in its ampere sockets are a short to whatever they touch next: put them back at once.",
		},
		{
			Words:  "Short the leads and set the ohmmeter to nothing; the clamp too, away from all cables.",
			Detail: "An ohmmeter says whether a pair is joined. What a joint is worth, its drop under load says: stay a minute at full load, then read.",
		},
	}}
}

func afterTests() sheet.Steps {
	return sheet.Steps{Items: []sheet.Step{
		{Words: "Each fuse pulled alone: what its note names is dead, and nothing else that is meant to run."},
		{Words: "Key off, all switches off: listen, look and feel for what is still on."},
		{Words: "After half an hour at full load: joints at most 30 K warmer than the air beside them, nothing that smells or grows soft."},
		{Words: "All caps and covers on; nothing rubs, hangs or can be caught by what moves."},
		{Words: "Readings written down with date, meter and name, and kept with the machine."},
	}}
}

// limitWords tell the books' limits with their sources and marks.
func limitWords() []string {
	names := []struct{ item, words string }{
		{"cable", "a cable"},
		{"contact", "a switch's or relay's contact"},
		{"joint", "a joint with a great current"},
		{"ground", "a ground point"},
		{"circuit", "a whole circuit"},
		{"starter_feed", "a starter's feed"},
		{"starter_return", "its return"},
		{"charging_feed", "an alternator's feed to the battery"},
		{"charging_return", "its return"},
	}
	words := []string{"Books: the greatest drop under load that workshop manuals accept in 12 V systems. They differ; the stricter figure stands."}
	for _, n := range names {
		if limit, source, ok := tables.DropTest(n.item); ok {
			words = append(words, fmt.Sprintf("%s: %g V (%s, %s; %s).", n.words, limit, source.Document, source.Clause, source.Mark))
		}
	}
	return append(words,
		"Pairs that are joined: below 0.5 ohm; pairs that must not be: above 1 Mohm, which an ordinary meter shows as open (common practice, no source). With an insulation tester at 500 V and everything unplugged: 10 Mohm wet, 100 Mohm dry (vehicle practice, from memory); Army bulletin SB 740-91-01 4c asks for 100 Mohm at 200 to 1000 V (seen).",
		"Each net is measured against the return and against those beside it in every connector, panel and bundle. Two nets that touch elsewhere are found when the fuse of one is pulled and it stays live.")
}
