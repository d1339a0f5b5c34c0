package edit

import (
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

const (
	// mostLed bounds how many wires one edit looks new ways for, and mostEffort
	// what the search may take in all, so that it fits into a frame of the window:
	// see [route.Board.Effort]. The others keep their bends as far as they can.
	mostLed    = 40
	mostEffort = 500_000
	// bearable is how much dearer than the best way a way may become, by the
	// edit alone, before its bends are given up: about three bends.
	bearable = 3000
)

// carried is a wire whose ends an edit has led somewhere else. Carry, which may
// be nil, is the motion that its bends take part in where both ends do.
type carried struct {
	old, now *schematic.Wire
	carry    func(geom.Point) geom.Point
}

// lead puts wires whose ends have moved since before, with bends that fit. Wires
// whose two ends were carried along take their bends with them. Others keep the bends they have, the first and last one sliding along,
// as long as that makes a sensible way; where it does not, a new one is found.
func (tx *Tx) lead(before *schematic.Doc, wires []carried) error {
	var puts []schematic.Item
	var open []carried
	for _, c := range wires {
		oldA, oldB := route.TipOf(before, c.old, c.old.A), route.TipOf(before, c.old, c.old.B)
		a, b := route.TipOf(tx.doc, c.now, c.now.A), route.TipOf(tx.doc, c.now, c.now.B)
		switch {
		case a == oldA && b == oldB:
			c.now.Via = c.old.Via
		case c.carry != nil && a.At == c.carry(oldA.At) && b.At == c.carry(oldB.At):
			via := make([]geom.Point, len(c.old.Via))
			for i, q := range c.old.Via {
				via[i] = c.carry(q)
			}
			c.now.Via = orNil(via)
			c.now.Tag = c.carry(c.old.Tag).Sub(c.carry(geom.Point{}))
		default:
			open = append(open, c)
			continue
		}
		puts = append(puts, c.now)
	}
	tx.Put(puts...)
	slices.SortFunc(open, func(a, b carried) int { return schematic.CompareItems(a.now, b.now) })
	l := leader{tx: tx, before: before, boards: map[schematic.ID]*route.Board{}, then: map[schematic.ID]*route.Board{}, left: mostLed}
	for i, c := range open {
		l.open = append(l.open, c.now.ID)
		open[i].now.Via = nil
	}
	for _, c := range open {
		l.lead(c)
		puts = append(puts, c.now)
	}
	tx.Put(puts...)
	for _, it := range puts {
		w := it.(*schematic.Wire)
		if err := onSheet(w.Name, append(slices.Clone(w.Via), w.A.At, w.B.At)...); err != nil {
			return err
		}
	}
	return nil
}

// leader finds bends for wires one after the other.
type leader struct {
	tx     *Tx
	before *schematic.Doc
	boards map[schematic.ID]*route.Board // of each sheet as it is now
	then   map[schematic.ID]*route.Board // and as it was
	open   []schematic.ID
	left   int // how many new ways may still be looked for
}

func (l *leader) lead(c carried) {
	old, w := c.old, c.now
	oldA, oldB := route.TipOf(l.before, old, old.A), route.TipOf(l.before, old, old.B)
	a, b := route.TipOf(l.tx.doc, w, w.A), route.TipOf(l.tx.doc, w, w.B)
	was := schematic.RoutePath(oldA.At, oldA.Dir, old.Via, oldB.At, oldB.Dir)
	board := l.board(w.Sheet)
	path, chosen := l.way(c, was, oldA, oldB, a, b)
	if chosen {
		w.Via = route.Bends(path, a, b)
	} else {
		w.Via = bendsOf(path, a, b)
	}
	path = schematic.RoutePath(a.At, a.Dir, w.Via, b.At, b.Dir)
	w.Tag = keepLabel(old.Tag, was, path)
	board.AddWire(w, path)
}

// way returns the way of a wire between its new tips, and whether the program
// has chosen it: a way that was the program's own choice is chosen again, bends
// made by hand are kept as long as that makes a sensible way.
func (l *leader) way(c carried, was geom.Path, oldA, oldB, a, b route.Tip) (path geom.Path, chosen bool) {
	board, then := l.board(c.now.Sheet), l.boardThen(c.old)
	may := func() bool { return l.left > 0 && board.Effort()+then.Effort() < mostEffort }
	q := route.Found{Path: was, Price: then.Price(was, oldA, oldB)}
	if !c.old.Locked && (len(c.old.Via) == 0 || slices.Equal(then.Plain(oldA, oldB).Path, was)) {
		now := board.Plain(a, b)
		if (now.Faults > 0 || now.Extra() > q.Extra()) && may() {
			l.left--
			now = board.Way(a, b)
		}
		return now.Path, true
	}
	path = follow(was, oldA, oldB, a, b)
	switch {
	case path == nil && !may():
		return board.Plain(a, b).Path, true
	case path == nil:
		l.left--
		return board.Way(a, b).Path, true
	case c.old.Locked || !may():
		return path, false
	}
	p := board.Price(path, a, b)
	further := route.Least(a, b) - route.Least(oldA, oldB)
	asGood := func(bear int) bool { return p.Faults <= q.Faults && p.Cost-further <= q.Cost+bear }
	if asGood(0) && p.Cost <= board.Plain(a, b).Cost {
		return path, false
	}
	bear := bearable
	if slices.Equal(then.Way(oldA, oldB).Path, was) {
		bear = 0
	} else if asGood(bear) {
		return path, false // what the hand made dearer than need be may stay so
	}
	l.left--
	if found := board.Way(a, b); p.Faults > found.Faults || p.Cost > found.Cost+bear {
		return found.Path, true
	}
	return path, false
}

// boardThen is the board of a wire's sheet as it was, without that wire.
func (l *leader) boardThen(old *schematic.Wire) *route.Board {
	then := l.then[old.Sheet]
	if then == nil {
		then = l.tx.baseBoard(old.Sheet)
		l.then[old.Sheet] = then
	}
	then.LookPast(old.ID)
	return then
}

func (l *leader) board(sheet schematic.ID) *route.Board {
	b := l.boards[sheet]
	if b == nil {
		b = l.tx.board(sheet, l.open...)
		l.boards[sheet] = b
	}
	return b
}

// leadAt is lead for the wires at some parts whose pins may have moved.
func (tx *Tx) leadAt(before *schematic.Doc, parts ...schematic.ID) error {
	var wires []carried
	for _, w := range tx.doc.WiresOf(parts...) {
		if old := before.Wire(w.ID); old != nil {
			c := *w
			wires = append(wires, carried{old: old, now: &c})
		}
	}
	return tx.lead(before, wires)
}

// way chooses the bends of a wire that has none.
func (tx *Tx) way(w *schematic.Wire) []geom.Point {
	a, b := route.TipOf(tx.doc, w, w.A), route.TipOf(tx.doc, w, w.B)
	return route.Bends(tx.board(w.Sheet, w.ID).Way(a, b).Path, a, b)
}

// boardAtFirst returns a sheet as the router saw it when the transaction began,
// to look at. After a large edit before, it is dear to make, so it is made once.
func (tx *Tx) boardAtFirst(sheet schematic.ID) *route.Board {
	b := tx.boards[sheet]
	if b == nil {
		b = route.Of(tx.base, sheet)
		if tx.boards == nil {
			tx.boards = map[schematic.ID]*route.Board{}
		}
		tx.boards[sheet] = b
	}
	return b
}

// baseBoard is boardAtFirst for a caller who will change it.
func (tx *Tx) baseBoard(sheet schematic.ID) *route.Board { return tx.boardAtFirst(sheet).Clone() }

// board returns a sheet as the router sees it now, without some wires.
func (tx *Tx) board(sheet schematic.ID, skip ...schematic.ID) *route.Board {
	b := tx.baseBoard(sheet)
	var parts []schematic.ID
	var wires []*schematic.Wire
	for _, k := range tx.change.Keys() { // what is put on the board comes in one order
		switch k.Type {
		case schematic.TypeKind, schematic.TypeSheet:
			b = route.Of(tx.doc, sheet) // all may lie elsewhere
			b.Without(skip...)
			return b
		case schematic.TypePart:
			parts = append(parts, k.ID)
		case schematic.TypeWire:
			b.Without(k.ID)
			if w, ok := tx.change[k].After.(*schematic.Wire); ok {
				wires = append(wires, w)
			}
		}
	}
	for _, id := range parts {
		b.Without(id)
		if p := tx.doc.Part(id); p != nil {
			b.AddPart(tx.doc, p, sheet)
		}
	}
	for _, w := range tx.doc.WiresOf(parts...) {
		if _, changed := tx.change[w.Key()]; !changed {
			b.Without(w.ID)
			wires = append(wires, w)
		}
	}
	var skipped schematic.IDSet
	skipped.Add(skip...)
	for _, w := range wires {
		if w.Sheet == sheet && !skipped.Has(w.ID) {
			b.AddWire(w, tx.doc.Path(w))
		}
	}
	b.Without(skip...)
	return b
}
