package export

import (
	"cmp"
	"image/color"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// blot stands for a small part from so far that its lines are not painted, or
// too few to show it: without it, wires would seem to end in the void.
type blot struct {
	planned       // with from as the zoom where its lines show it
	first   int32 // a mark of the part
}

// blots returns those of a list: one for each symbol of a part.
func blots(l *draw.List, marks []planned) []blot {
	var all []blot
	var owner schematic.Key
	var lines []planned // of the last blot
	finish := func() {
		if len(all) > 0 {
			b := &all[len(all)-1]
			b.from = outlinedFrom(b.planned, lines)
		}
		lines = lines[:0]
	}
	for i := range l.Marks {
		m, p := &l.Marks[i], &marks[i]
		s, ok := m.Op.(*draw.Stroke)
		if !ok || s == nil || s.Ink != draw.InkSymbol || m.Owner.Type != schematic.TypePart || !p.sound {
			continue
		}
		if m.Owner != owner || !near(&all[len(all)-1].planned, p) {
			finish()
			owner = m.Owner
			all = append(all, blot{*p, int32(i)})
		}
		lines = append(lines, *p)
		b := &all[len(all)-1]
		b.x0, b.y0, b.x1, b.y1 = min(b.x0, p.x0), min(b.y0, p.y0), max(b.x1, p.x1), max(b.y1, p.y1)
	}
	finish()
	return all
}

// outlinedFrom returns the zoom from which on the lines of a part show how large
// it is, nearly: those painted reach over a third of it, level and upright. A mere
// lead does not.
func outlinedFrom(b planned, lines []planned) float32 {
	const share = 3
	slices.SortFunc(lines, func(a, b planned) int { return cmp.Compare(a.from, b.from) })
	shown := lines[0]
	for _, p := range lines {
		shown.x0, shown.y0, shown.x1, shown.y1 = min(shown.x0, p.x0), min(shown.y0, p.y0), max(shown.x1, p.x1), max(shown.y1, p.y1)
		if shown.from = p.from; share*(shown.x1-shown.x0) >= b.x1-b.x0 && share*(shown.y1-shown.y0) >= b.y1-b.y0 {
			break
		}
	}
	return shown.from
}

// near reports whether two marks of a part belong to one symbol of it: those of
// another stand apart.
func near(a, b *planned) bool {
	const gap = 10 // mm
	return a.x0-gap <= b.x1 && b.x0-gap <= a.x1 && a.y0-gap <= b.y1 && b.y0-gap <= a.y1
}

// blotShare is how dark a blot is: the lines of a part cover about a third of it.
const blotShare = 0.35

// paintBlots paints the parts whose lines are not.
func (b *band) paintBlots(plan *Plan) {
	if b.at.exact {
		return
	}
	k := b.ink(draw.InkSymbol, color.RGBA{}).faded(blotShare)
	for i := range plan.blots {
		t := &plan.blots[i]
		if float64(t.from) <= b.at.scale || len(plan.gone) > 0 && plan.gone[plan.list.Marks[t.first].Owner] {
			continue
		}
		lo, hi := b.px(draw.Point{X: float64(t.x0), Y: float64(t.y0)}), b.px(draw.Point{X: float64(t.x1), Y: float64(t.y1)})
		b.rect(lo.x, lo.y, hi.x, hi.y, k)
	}
}
