package draw

import (
	"slices"

	"loomwright/schematic"
)

// Ghost draws some parts, wires and notes of a sheet as something that is not
// there any more: dashed, in one ink, wires without their labels and nothing with
// the values that hang on results. It is laid under another drawing by
// [Options.Under].
func Ghost(d *schematic.Doc, sheet schematic.ID, gone map[schematic.Key]bool) *List {
	s := d.Sheet(sheet)
	if s == nil || len(gone) == 0 {
		return nil
	}
	// Only they are drawn, so that nothing else takes the room of their texts.
	bare := schematic.New(d.Library()).With(schematic.Put{Key: s.Key(), Item: s}, schematic.Put{Key: d.Info().Key(), Item: d.Info()})
	var puts []schematic.Put
	for k := range d.OwnKinds() {
		puts = append(puts, schematic.Put{Key: k.Key(), Item: k})
	}
	for k := range gone {
		if k.Type == schematic.TypePart || k.Type == schematic.TypeNote {
			if it := d.Get(k); it != nil {
				puts = append(puts, schematic.Put{Key: k, Item: it})
			}
		}
	}
	all := Sheet(bare.With(puts...), sheet, Options{})
	list := &List{Size: all.Size, Marks: ghostWires(d, sheet, gone)}
	for _, m := range all.Marks {
		if !gone[m.Owner] {
			continue
		}
		switch op := m.Op.(type) {
		case *Stroke:
			o := *op
			o.Ink, o.Dash = InkError, ghostDash()
			m.Op = &o
		case *Text:
			o := *op
			o.Ink = InkError
			m.Op = &o
		case *Fill:
			if op.Ink == InkFill || op.Ink == InkPaper {
				continue // what stands there now is not to be hidden
			}
			o := *op
			o.Ink = InkError
			m.Op = &o
		}
		list.Marks = append(list.Marks, m)
	}
	return list
}

// ghostWires draws the wires along their ways in the document, where the parts
// at their ends are still known.
func ghostWires(d *schematic.Doc, sheet schematic.ID, gone map[schematic.Key]bool) []Mark {
	var wires []*schematic.Wire
	for k := range gone {
		if w := d.Wire(k.ID); k.Type == schematic.TypeWire && w != nil && w.Sheet == sheet {
			wires = append(wires, w)
		}
	}
	slices.SortFunc(wires, func(a, b *schematic.Wire) int { return a.Key().Compare(b.Key()) })
	var marks []Mark
	for _, w := range wires {
		p := pen{owner: w.Key()}
		var way []Point
		for _, at := range d.Path(w) {
			way = append(way, mm(at))
		}
		p.dashed(polyline(way...), WireWidth(w), InkError, ghostDash()...)
		marks = append(marks, p.marks...)
	}
	return marks
}

func ghostDash() []float64 { return []float64{1.6, 1.0} }
