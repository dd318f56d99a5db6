package board

import (
	"fmt"
	"strings"

	"hame/lang/harness"
)

// mostLandings is how many devices of a place are named.
const mostLandings = 12

// about tells of a place: its zone, then its devices.
func (n *node) about(slackM float64) (lines []string) {
	if z := n.place.Zone; z != nil {
		lines = append(lines, zoneWords(z))
	}
	for i, l := range n.ends {
		if i == mostLandings {
			lines = append(lines, fmt.Sprintf("and %d more", len(n.ends)-i))
			break
		}
		lines = append(lines, landingWords(l))
	}
	for _, b := range n.loops {
		lines = append(lines, fmt.Sprintf("closes a ring: %s, %s to %s", b.Name, metres(b.LengthM), other(b, n.place).Name))
	}
	if slackM > 0 && len(n.ends) > 0 {
		lines = append(lines, fmt.Sprintf("tails of %.0f mm", slackM*1000))
	}
	return lines
}

func landingWords(l landing) string {
	own := ""
	if l.device.Existing {
		own = ", machine's own"
	}
	if l.ends == 1 {
		return l.device.Name + ": 1 end" + own
	}
	return fmt.Sprintf("%s: %d ends%s", l.device.Name, l.ends, own)
}

// exposures in the order in which they are told.
var exposures = []string{"oil", "splash", "wet", "sun", "abrasion", "fuel"}

func zoneWords(z *harness.Zone) string {
	words := "zone " + z.Name
	if z.Known {
		words += fmt.Sprintf(", %g to %g degC", z.LeastC, z.MostC)
	}
	for _, e := range exposures {
		if z.Exposed[e] {
			words += ", " + e
		}
	}
	return words
}

// label tells of a bundle: its name and length, its make-up, and what it passes.
func label(b *harness.Bundle) (head string, lines []string) {
	head = b.Name + ", " + metres(b.LengthM)
	if b.Existing {
		head += ", machine's own"
	}
	return head, append([]string{makeUp(b)}, passage(b)...)
}

func makeUp(b *harness.Bundle) string {
	words := fmt.Sprintf("%d wires", len(b.Members))
	if len(b.Members) == 1 {
		words = "1 wire"
	}
	if b.DiameterMM > 0 {
		words += fmt.Sprintf(", %.1f mm across", b.DiameterMM)
	}
	if b.Cover == nil {
		return words + ", bare"
	}
	words += ", " + b.Cover.Name
	if b.Cover.BoreM > 0 {
		words += fmt.Sprintf(" %g mm", b.Cover.BoreM*1000)
	}
	return words
}

// passage tells what a bundle goes through and how it is held.
func passage(b *harness.Bundle) []string {
	var parts []string
	if a, ok := b.Args("through"); ok && a.Word("bulkhead") != "" {
		grommet := "no grommet said"
		if v, ok := a.SI("grommet"); ok {
			grommet = fmt.Sprintf("grommet %g mm", round(v*1000))
		}
		parts = append(parts, "through a bulkhead, "+grommet)
	}
	if v, ok := b.SI("clamp"); ok {
		parts = append(parts, fmt.Sprintf("clamps every %g mm", round(v*1000)))
	}
	if len(parts) == 0 {
		return nil
	}
	return []string{strings.Join(parts, "; ")}
}

func metres(m float64) string { return fmt.Sprintf("%.2f m", m) }

// round takes off the last digits that a binary figure adds.
func round(mm float64) float64 { return float64(int64(mm*10+0.5)) / 10 }
