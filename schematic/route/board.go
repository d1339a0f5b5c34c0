package route

import (
	"bytes"
	"slices"
	"sync"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Board is a sheet as the router sees it. It is not safe for concurrent use;
// [Of] gives each caller one of its own over shared data.
type Board struct {
	plan *plan // as the document has it
	more plan  // added since
	gone schematic.IDSet
	past schematic.ID // looked past for now, if any
	// owned are the things among more by what they belong to.
	owned map[schematic.ID][]int
	steps int // states looked at in searches so far
	laid  int // crossings laid out for them
}

// sort of a thing in the way of a wire.
type sort uint8

const (
	body    sort = iota
	pin          // with its stub
	text         // designations and notes
	outside      // what lies beyond the frame of the sheet
	strand       // a straight piece of a wire
	corner       // a bend or loose end of one
	mouth        // the place a grid step out of a pin
)

// thing is something in the way. It is given by the two points it spans: a
// strand's ends, a body's corners.
type thing struct {
	sort  sort
	area  geom.Rect
	at    geom.Point // of a pin
	owner schematic.ID
	// ends are those of the wire that a strand or corner belongs to.
	ends [2]ending
}

// ending is where a wire ends: one pin may be drawn in several places.
type ending struct {
	pin schematic.PinRef
	at  geom.Point
}

// plan is a sheet's things in a grid of cells.
type plan struct {
	origin geom.Point
	cell   int
	nx, ny int
	heads  []int32
	links  []link
	things []thing
	bounds geom.Rect
	doc    *schematic.Doc
	spare  *sync.Pool // of *search, for the boards of this plan
}

type link struct{ thing, next int32 }

const (
	cellSize = 8 * geom.Grid
	maxCells = 1 << 15
)

// lay makes an empty plan for things within the bounds; others count to the
// cells at the edge.
func lay(bounds geom.Rect) plan {
	p := plan{origin: bounds.Min, cell: cellSize, bounds: bounds}
	for {
		p.nx, p.ny = bounds.Width()/p.cell+1, bounds.Height()/p.cell+1
		if p.nx*p.ny <= maxCells {
			break
		}
		p.cell *= 2
	}
	p.heads = make([]int32, p.nx*p.ny)
	for i := range p.heads {
		p.heads[i] = -1
	}
	return p
}

func (p *plan) cells(r geom.Rect) (x0, y0, x1, y1 int) {
	at := func(v, n int) int { return max(0, min(v/p.cell, n-1)) }
	return at(r.Min.X-p.origin.X, p.nx), at(r.Min.Y-p.origin.Y, p.ny), at(r.Max.X-p.origin.X, p.nx), at(r.Max.Y-p.origin.Y, p.ny)
}

func (p *plan) add(t thing) {
	i := int32(len(p.things))
	p.things = append(p.things, t)
	p.bounds = p.bounds.Union(t.area)
	x0, y0, x1, y1 := p.cells(t.area)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			c := y*p.nx + x
			p.links = append(p.links, link{i, p.heads[c]})
			p.heads[c] = int32(len(p.links) - 1)
		}
	}
}

// each calls f once for everything whose area touches r.
func (p *plan) each(r geom.Rect, f func(*thing)) {
	if len(p.things) == 0 || r.Empty() {
		return
	}
	qx0, qy0, qx1, qy1 := p.cells(r)
	for y := qy0; y <= qy1; y++ {
		for x := qx0; x <= qx1; x++ {
			// A thing in several cells is told in the first one alone: it begins
			// here, or before all that is asked.
			from := p.origin.Add(geom.Pt(x*p.cell, y*p.cell))
			for l := p.heads[y*p.nx+x]; l >= 0; l = p.links[l].next {
				t := &p.things[p.links[l].thing]
				if t.area.Touches(r) && (x == qx0 || t.area.Min.X >= from.X) && (y == qy0 || t.area.Min.Y >= from.Y) {
					f(t)
				}
			}
		}
	}
}

func (p *plan) addWire(w *schematic.Wire, path geom.Path) {
	t := thing{sort: strand, owner: w.ID}
	if len(path) > 0 {
		t.ends = [2]ending{{w.A.Ref(), path[0]}, {w.B.Ref(), path[len(path)-1]}}
	}
	for i := 1; i < len(path); i++ {
		t.area = geom.RectOf(path[i-1], path[i])
		p.add(t)
	}
	t.sort = corner
	for i, q := range path {
		if i == 0 && !w.A.Loose() || i == len(path)-1 && !w.B.Loose() {
			continue // the pin stands for it
		}
		t.area = geom.RectOf(q)
		p.add(t)
	}
}

// each calls f for everything that is there now and touches r.
func (b *Board) each(r geom.Rect, f func(*thing)) {
	none := schematic.ID{}
	b.plan.each(r, func(t *thing) {
		if t.owner == none || t.owner != b.past && !b.gone.Has(t.owner) {
			f(t)
		}
	})
	b.more.each(r, func(t *thing) {
		if t.owner == none || t.owner != b.past {
			f(t)
		}
	})
}

// LookPast leaves one part or wire out of sight until the next one is, or none.
func (b *Board) LookPast(id schematic.ID) { b.past = id }

// Clone returns a board of its own that shows the same.
func (b *Board) Clone() *Board {
	c := &Board{plan: b.plan, more: b.more, gone: b.gone.Clone(), past: b.past, steps: b.steps, laid: b.laid}
	c.more.heads, c.more.links, c.more.things = slices.Clone(b.more.heads), slices.Clone(b.more.links), slices.Clone(b.more.things)
	if b.owned != nil {
		c.owned = make(map[schematic.ID][]int, len(b.owned))
		for id, at := range b.owned {
			c.owned[id] = slices.Clip(at)
		}
	}
	return c
}

// WiresIn returns the wires that have a stretch in one of the areas, in the order
// of their IDs.
func (b *Board) WiresIn(areas ...geom.Rect) []schematic.ID {
	var ids []schematic.ID
	for _, r := range areas {
		b.each(r, func(t *thing) {
			if t.sort == strand {
				ids = append(ids, t.owner)
			}
		})
	}
	slices.SortFunc(ids, func(x, y schematic.ID) int { return bytes.Compare(x[:], y[:]) })
	return slices.Compact(ids)
}

// Without takes parts and wires off the board.
func (b *Board) Without(ids ...schematic.ID) {
	b.gone.Add(ids...)
	for _, id := range ids {
		for _, i := range b.owned[id] {
			b.more.things[i].area = geom.EmptyRect()
		}
		delete(b.owned, id)
	}
}

// AddWire puts a wire on the board as it would be drawn. One the document has
// must be taken off before.
func (b *Board) AddWire(w *schematic.Wire, path geom.Path) {
	b.add(w.ID, func() { b.more.addWire(w, path) })
}

// AddPart puts a part as the document d has it on the board.
func (b *Board) AddPart(d *schematic.Doc, p *schematic.Part, sheet schematic.ID) {
	b.add(p.ID, func() { b.more.addPart(d, p, sheet, nil) })
}

func (b *Board) add(owner schematic.ID, f func()) {
	if b.more.heads == nil {
		b.more, b.owned = lay(b.plan.bounds), map[schematic.ID][]int{}
	}
	from := len(b.more.things)
	f()
	for i := from; i < len(b.more.things); i++ {
		b.owned[owner] = append(b.owned[owner], i)
	}
}

// bounds is the area in which ways are looked for.
func (b *Board) bounds() geom.Rect {
	r := b.plan.bounds
	if len(b.more.things) > 0 {
		r = r.Union(b.more.bounds)
	}
	return r.Grow(8 * geom.Grid)
}

// memoKey is what a plan is remembered by.
type memoKey struct{ sheet schematic.ID }

// Of returns the board of a sheet. The work is done once for a document and
// serves the snapshots after it, as long as few things have changed.
func Of(d *schematic.Doc, sheet schematic.ID) *Board {
	key := memoKey{sheet}
	if p, ok := d.Recall(key).(*plan); ok && p.doc != d {
		if b := p.since(d, sheet); b != nil {
			return b
		}
	}
	return &Board{plan: d.Memo(key, func() any { return survey(d, sheet) }).(*plan)}
}

func survey(d *schematic.Doc, sheet schematic.ID) *plan {
	bounds := geom.EmptyRect()
	if s := d.Sheet(sheet); s != nil {
		bounds = s.Area()
	}
	p := lay(bounds)
	p.doc = d
	p.spare = &sync.Pool{New: func() any { return new(search) }}
	if s := d.Sheet(sheet); s != nil {
		title, beyond := frame(s.Area())
		if !title.Empty() {
			p.add(thing{sort: text, area: title})
		}
		for _, r := range beyond {
			p.add(thing{sort: outside, area: r})
		}
	}
	ends := endings{}
	for part := range d.Parts() {
		p.addPart(d, part, sheet, ends)
	}
	for n := range d.Notes() {
		if n.Sheet == sheet {
			p.add(thing{sort: text, area: noteText(n), owner: n.ID})
		}
	}
	for w := range d.Wires() {
		if w.Sheet == sheet {
			a, dirA := ends.at(w.A)
			z, dirZ := ends.at(w.B)
			p.addWire(w, schematic.RoutePath(a, dirA, w.Via, z, dirZ))
		}
	}
	return &p
}

// endings are the pins shown on a sheet, by part. It finds the ends of many
// wires as [schematic.Doc.EndAt] finds one.
type endings map[schematic.ID][]shown

type shown struct {
	view string
	pins []schematic.PlacedPin
}

func (es endings) at(e schematic.End) (geom.Point, geom.Dir) {
	if !e.Loose() {
		for _, exact := range [2]bool{true, false} {
			for _, s := range es[e.Part] {
				if exact && s.view != e.View {
					continue
				}
				for i := range s.pins {
					if s.pins[i].Pin.Name == e.Pin {
						return s.pins[i].At, s.pins[i].Dir
					}
				}
			}
		}
	}
	return e.At, geom.NoDir
}

// addPart adds what a part shows on a sheet and notes its pins in ends, which
// may be nil.
func (p *plan) addPart(d *schematic.Doc, part *schematic.Part, sheet schematic.ID, ends endings) {
	for _, v := range part.Views {
		if v.Sheet != sheet {
			continue
		}
		area, pins := d.Body(part, v), d.PlacedPins(part, v)
		if ends != nil {
			ends[part.ID] = append(ends[part.ID], shown{v.Key, pins})
		}
		p.add(thing{sort: body, area: area, owner: part.ID})
		for _, pp := range pins {
			if !area.Contains(pp.At) {
				p.add(thing{sort: pin, area: geom.RectOf(pp.At, pp.Edge), at: pp.At, owner: part.ID})
			}
			if v := pp.Dir.Vec(); pp.Dir != geom.NoDir {
				p.add(thing{sort: mouth, area: geom.RectOf(pp.At.Add(geom.Pt(v.X*geom.Grid, v.Y*geom.Grid))), at: pp.At, owner: part.ID})
			}
		}
		if t := tagText(d, part, v, area); !t.Empty() {
			p.add(thing{sort: text, area: t, owner: part.ID})
		}
	}
}

// meets reports whether a strand or corner belongs to a wire that ends at one
// of the tips' pins, drawn in the same place.
func (t *thing) meets(a, z Tip) bool {
	none := schematic.PinRef{}
	return a.Pin != none && slices.Contains(t.ends[:], ending{a.Pin, a.At}) || z.Pin != none && slices.Contains(t.ends[:], ending{z.Pin, z.At})
}
