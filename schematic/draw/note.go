package draw

import (
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

const notePad = 1.5 // mm between a frame and its text

// notes draws free texts and frames.
func (b *build) notes() []Mark {
	var p pen
	for _, n := range b.notesHere {
		p.owner = n.Key()
		p.note(n)
	}
	for _, m := range p.marks {
		switch op := m.Op.(type) {
		case *Text:
			b.room.block(op.Box())
		case *Stroke:
			for _, s := range strokeBoxes(op) {
				b.room.take(taken{box: s, owner: noOwner, seg: -1})
			}
		}
	}
	return p.marks
}

func (b *build) findNotes() {
	for n := range b.doc.Notes() {
		if n.Sheet == b.sheet.ID {
			b.notesHere = append(b.notesHere, n)
		}
	}
}

func (p *pen) note(n *schematic.Note) {
	at := mm(n.At)
	size := float64(n.TextSize()) / geom.PerMM
	width := float64(max(n.Width, 0)) / geom.PerMM
	framed := n.Width > 0 && n.Height > 0
	if framed {
		box := Box{at, at.add(width, float64(n.Height)/geom.PerMM)}
		p.dashed(roundRect(box, 2), plainLine, InkFaint, 3, 1.5)
		at, width = at.add(notePad, notePad), max(width-2*notePad, size)
	}
	y := at.Y + CapHeight(size)
	for _, l := range wrap(strings.TrimRight(n.Text, "\n "), width, size, framed, 0) {
		p.text(textAt(l, Point{at.X, y}, atStart, 0, size, framed, InkFaint))
		y += size * lineSpace
	}
}
