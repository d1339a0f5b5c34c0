package edit

import (
	"fmt"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// plate is a document of n items: rows of fuses and lamps, wired in pairs.
func plate(b testing.TB, n int) (*Session, schematic.ID) {
	ids := countIDs()
	tx := Begin(schematic.New(testLibrary()), ids)
	if err := AddSheet(tx, ""); err != nil {
		b.Fatal(err)
	}
	sheet := tx.Doc().Sheets()[0].ID
	var items []schematic.Item
	for i := range n / 3 {
		x, y := i%40*200, i/40*600
		f := &schematic.Part{ID: tx.NewID(), Name: fmt.Sprint("F", i), Kind: "fuse", Views: []schematic.View{{Sheet: sheet, At: geom.Pt(x, y)}}}
		e := &schematic.Part{ID: tx.NewID(), Name: fmt.Sprint("E", i), Kind: "lamp", Views: []schematic.View{{Sheet: sheet, At: geom.Pt(x+100, y+300)}}}
		w := &schematic.Wire{ID: tx.NewID(), Name: fmt.Sprint("W", i), Sheet: sheet, A: schematic.End{Part: f.ID, Pin: "2"}, B: schematic.End{Part: e.ID, Pin: "1"},
			Via: []geom.Point{geom.Pt(x, y+150), geom.Pt(x+100, y+150)}}
		items = append(items, f, e, w)
	}
	tx.Put(items...)
	if err := verify(tx.Doc()); err != nil {
		b.Fatal(err)
	}
	return NewSession(tx.Doc(), nil, ids), sheet
}

// Budget: the commit of one edit on 1 000 items takes 50 µs or less.
func BenchmarkCommit(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		s, sheet := plate(b, n)
		var f schematic.Key
		for p := range s.Doc().Parts() {
			if p.Kind == "fuse" {
				f = p.Key()
				break
			}
		}
		b.Run(fmt.Sprintf("move/%d", n), func(b *testing.B) {
			by := geom.Pt(25, 0)
			for b.Loop() {
				by = by.Neg()
				if err := s.Do("move", func(tx *Tx) error { return Move(tx, sheet, []schematic.Key{f}, by) }); err != nil {
					b.Fatal(err)
				}
				s.done = s.done[:0] // the history is not what is measured
			}
		})
		b.Run(fmt.Sprintf("field/%d", n), func(b *testing.B) {
			i := 0
			for b.Loop() {
				i++
				if err := s.Do("label", func(tx *Tx) error {
					return SetPart(tx, f.ID, func(p *schematic.Part) { p.Label = fmt.Sprint(i) })
				}); err != nil {
					b.Fatal(err)
				}
				s.done = s.done[:0]
			}
		})
		for _, c := range []struct {
			what string
			at   geom.Point
		}{{"place", geom.Pt(-2500, -2500)}, {"place on a wire", geom.Pt(25, 25)}} {
			b.Run(fmt.Sprintf("%s/%d", c.what, n), func(b *testing.B) {
				for b.Loop() {
					if err := s.Do("place", func(tx *Tx) error { return PlacePart(tx, "switch", sheet, c.at, geom.Orient{}) }); err != nil {
						b.Fatal(err)
					}
					if err := s.Undo(); err != nil {
						b.Fatal(err)
					}
					s.undone = s.undone[:0]
				}
			})
		}
		b.Run(fmt.Sprintf("delete/%d", n), func(b *testing.B) {
			for b.Loop() {
				if err := s.Do("delete", func(tx *Tx) error { return Delete(tx, []schematic.Key{f}) }); err != nil {
					b.Fatal(err)
				}
				if err := s.Undo(); err != nil {
					b.Fatal(err)
				}
				s.undone = s.undone[:0]
			}
		})
	}
}

func BenchmarkDuplicateAll(b *testing.B) {
	s, sheet := plate(b, 1000)
	var keys []schematic.Key
	for it := range s.Doc().All() {
		if t := it.Key().Type; t == schematic.TypePart || t == schematic.TypeWire {
			keys = append(keys, it.Key())
		}
	}
	for b.Loop() {
		tx := Begin(s.Doc(), nil)
		if err := Duplicate(tx, sheet, keys, geom.Pt(25, 25)); err != nil {
			b.Fatal(err)
		}
	}
}
