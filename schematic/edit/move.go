package edit

import (
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Move shifts what is selected on a sheet: the views of the parts there, notes
// and the loose ends of wires. Wires with both ends moved go along with their
// bends; others stay orthogonal and keep the bends they have. Items of other
// sheets, keys that name nothing and locked items are passed over; it is an
// error that all are locked.
//
// Wires of others that parts come to lie on are led round them. Of a part with
// several symbols on the sheet some may stay: see [Staying].
func Move(tx *Tx, sheet schematic.ID, keys []schematic.Key, by geom.Point, held ...Symbol) error {
	if by == (geom.Point{}) {
		return nil
	}
	keys, err := unlocked(tx.doc, keys)
	if err != nil {
		return err
	}
	return shift(by).apply(tx, gather(tx.doc, sheet, keys, held...))
}

func shift(by geom.Point) movement {
	return movement{
		point: func(q geom.Point) geom.Point { return q.Add(by) },
		view:  func(v *schematic.View) { v.At = v.At.Add(by) },
		note:  func(n *schematic.Note) { n.At = n.At.Add(by) },
	}
}

// moveOnto moves parts onto a wire that they are to be put into.
func (tx *Tx) moveOnto(sheet schematic.ID, keys []schematic.Key, by geom.Point) error {
	m := shift(by)
	m.onto = true
	return m.apply(tx, gather(tx.doc, sheet, keys))
}

// group is what a selection means on one sheet.
type group struct {
	sheet schematic.ID
	parts []*schematic.Part
	notes []*schematic.Note
	wires map[schematic.ID]bool
	stay  map[Symbol]bool // symbols of the parts that are left where they are
}

// moves reports whether a view of one of the parts is meant.
func (g group) moves(p *schematic.Part, v schematic.View) bool {
	return v.Sheet == g.sheet && !g.stay[Symbol{p.ID, v.Key}]
}

func gather(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key, held ...Symbol) group {
	g := group{sheet: sheet, stay: Staying(d, sheet, keys, held...)}
	seen := make(map[schematic.Key]bool, len(keys))
	for _, k := range keys {
		if seen[k] {
			continue
		}
		seen[k] = true
		switch it := d.Get(k).(type) {
		case *schematic.Part:
			if shownOn(it, sheet) {
				g.parts = append(g.parts, it)
			}
		case *schematic.Note:
			if it.Sheet == sheet {
				g.notes = append(g.notes, it)
			}
		case *schematic.Wire:
			if it.Sheet == sheet {
				if g.wires == nil {
					g.wires = map[schematic.ID]bool{}
				}
				g.wires[it.ID] = true
			}
		}
	}
	return g
}

func shownOn(p *schematic.Part, sheet schematic.ID) bool {
	return slices.ContainsFunc(p.Views, func(v schematic.View) bool { return v.Sheet == sheet })
}

// movement is one rigid motion of a group on its sheet.
type movement struct {
	point func(geom.Point) geom.Point
	view  func(*schematic.View)
	note  func(*schematic.Note)
	onto  bool // wires of others below stay: the parts go into one
}

func (m movement) apply(tx *Tx, g group) error {
	return tx.move(g.sheet, []motion{{m, g}})
}

// motion is a group and how it moves.
type motion struct {
	movement
	group
}

// move makes several motions on a sheet at once, so that each wire is led once.
func (tx *Tx) move(sheet schematic.ID, motions []motion) error {
	before := tx.doc
	var puts []schematic.Item
	var parts, lands []schematic.ID // parts that move, and those of them that wires make way for
	for _, m := range motions {
		for _, p := range m.parts {
			c := *p
			c.Views = slices.Clone(p.Views)
			for i := range c.Views {
				if v := &c.Views[i]; m.moves(p, *v) {
					m.view(v)
					if err := onSheet(p.Name, v.At); err != nil {
						return err
					}
				}
			}
			puts = append(puts, &c)
			if parts = append(parts, p.ID); !m.onto {
				lands = append(lands, p.ID)
			}
		}
		for _, n := range m.notes {
			c := *n
			m.note(&c)
			if err := onSheet("the note", c.At); err != nil {
				return err
			}
			puts = append(puts, &c)
		}
	}
	tx.Put(puts...)
	wires := carry(before, sheet, motions, parts)
	if len(lands) > 0 {
		own := make([]schematic.ID, len(wires))
		for i, c := range wires {
			own[i] = c.old.ID
		}
		tx.dodge(before, sheet, lands, own...)
	}
	return tx.lead(before, wires)
}

// carry returns the wires of a sheet that follow the parts they end at, and those
// among the groups, with their loose ends moved.
func carry(before *schematic.Doc, sheet schematic.ID, motions []motion, parts []schematic.ID) []carried {
	ofPart := make(map[schematic.ID]*motion, len(parts))
	ofWire := map[schematic.ID]*motion{}
	follow, seen := before.WiresOf(parts...), map[schematic.ID]bool{}
	for _, w := range follow {
		seen[w.ID] = true
	}
	for i := range motions {
		m := &motions[i]
		for _, p := range m.parts {
			ofPart[p.ID] = m
		}
		for id := range m.wires {
			ofWire[id] = m
			if !seen[id] {
				follow, seen[id] = append(follow, before.Wire(id)), true
			}
		}
	}
	slices.SortFunc(follow, func(a, b *schematic.Wire) int { return a.Key().Compare(b.Key()) })
	var wires []carried
	for _, w := range follow {
		if w.Sheet != sheet {
			continue
		}
		c := *w
		m := ofWire[w.ID]
		if m != nil {
			for _, e := range []*schematic.End{&c.A, &c.B} {
				if e.Loose() {
					e.At = m.point(e.At)
				}
			}
		}
		// Where the two ends go different ways, the bends go neither.
		for _, e := range [2]schematic.ID{w.A.Part, w.B.Part} {
			if m == nil {
				m = ofPart[e]
			}
		}
		wires = append(wires, carried{w, &c, m.point})
	}
	return wires
}

// partSet returns a test for membership. A few parts are compared one by one,
// which beats hashing for the usual drag.
func partSet(parts []*schematic.Part) func(schematic.ID) bool {
	if len(parts) <= 4 {
		return func(id schematic.ID) bool {
			for _, p := range parts {
				if p.ID == id {
					return true
				}
			}
			return false
		}
	}
	set := make(map[schematic.ID]bool, len(parts))
	for _, p := range parts {
		set[p.ID] = true
	}
	return func(id schematic.ID) bool { return set[id] }
}
