package sample

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// OnOneSheet returns a harness made by [Harness] with its sheets laid beside and
// below each other on one, for trials of a sheet with very much on it.
func OnOneSheet(d *schematic.Doc) (*schematic.Doc, error) {
	sheets := d.Sheets()
	tile := sheets[0].Area().Max
	across := min(geom.MaxCoord/tile.X, len(sheets))
	for across > 1 && (across-1)*tile.X >= (len(sheets)+across-2)/(across-1)*tile.Y {
		across-- // about as wide as high
	}
	down := (len(sheets) + across - 1) / across
	if down*tile.Y > geom.MaxCoord {
		return nil, fmt.Errorf("%d sheets do not fit on one: ask for fewer wires", len(sheets))
	}
	one := *sheets[0]
	one.Name, one.Width, one.Height = "All", across*tile.X, down*tile.Y
	puts := []schematic.Put{{Key: one.Key(), Item: &one}}
	corner := map[schematic.ID]geom.Point{}
	for i, s := range sheets {
		corner[s.ID] = geom.Pt(i%across*tile.X, i/across*tile.Y)
		if s.ID != one.ID {
			puts = append(puts, schematic.Put{Key: s.Key()})
		}
	}
	for p := range d.Parts() {
		moved := *p
		moved.Views = slices.Clone(p.Views)
		for i, v := range p.Views {
			moved.Views[i].Sheet, moved.Views[i].At = one.ID, v.At.Add(corner[v.Sheet])
		}
		puts = append(puts, schematic.Put{Key: p.Key(), Item: &moved})
	}
	for w := range d.Wires() {
		moved := *w
		moved.Sheet, moved.A.View, moved.B.View = one.ID, viewOn(d, w.A.Part, w.Sheet), viewOn(d, w.B.Part, w.Sheet)
		puts = append(puts, schematic.Put{Key: w.Key(), Item: &moved})
	}
	return d.With(puts...), nil
}

// viewOn returns the key of the view that a wire on a sheet is drawn to.
func viewOn(d *schematic.Doc, part, sheet schematic.ID) string {
	views := d.Part(part).Views
	return views[slices.IndexFunc(views, func(v schematic.View) bool { return v.Sheet == sheet })].Key
}
