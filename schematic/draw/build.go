package draw

import (
	"runtime"
	"slices"
	"sync"

	"loomwright/schematic"
)

// build is the making of one list.
type build struct {
	doc   *schematic.Doc
	sheet *schematic.Sheet
	opts  Options
	live  Live
	old   *memory

	kinds     map[string]*schematic.Kind
	symbols   []*symbol
	byPart    map[schematic.ID][2]int32 // its symbols: from, to
	lines     []*line
	ends      [][2]pinAt // per line
	dots      []dot
	notesHere []*schematic.Note
	texts     []textHit
	room      *space
	dirty     *dirty
	gaps      [2 * labelSegs][]span // reused from label to label
}

func newBuild(d *schematic.Doc, sh *schematic.Sheet, o Options, old *memory, room *space) *build {
	b := &build{doc: d, sheet: sh, opts: o, old: old, room: room, kinds: map[string]*schematic.Kind{}}
	if o.Live != nil {
		b.live = *o.Live
	}
	old.builds++
	size := mm(sh.Area().Max)
	b.room.reset(size.X, size.Y)
	b.dirty = &old.dirty
	b.dirty.reset(old.builds == 1 || old.size != size)
	old.size = size
	return b
}

// run finds what is on the sheet, draws it and puts the marks in painting order.
func (b *build) run() *List {
	b.findSymbols()
	b.findLines()
	b.takeRoom()
	still := len(b.room.taken)
	b.findDots()
	b.findNotes()

	// Everything that does not move is entered as taken before the first text
	// looks for room; then designations, labels, and what is laid on top.
	frame, notes, groups := b.frame(), b.notes(), b.groups()
	b.dirty.areas(b.old.fixed, b.room.taken[still:])
	b.old.fixed = append(b.old.fixed[:0], b.room.taken[still:]...)
	tags := b.tags()
	labels := b.labels()
	glow, top, dots := b.glow(), b.overlay(), b.dotMarks()

	var under []Mark
	if b.opts.Under != nil {
		under = b.opts.Under.Marks
	}
	n := len(frame) + len(under) + len(notes) + len(groups) + len(tags) + len(labels) + len(glow) + len(top) + len(dots)
	list := &List{Size: mm(b.sheet.Area().Max), Marks: make([]Mark, 0, n+b.kept())}
	add := func(marks []Mark) { list.Marks = append(list.Marks, marks...) }
	add(frame)
	add(under)
	noteMarks := len(list.Marks)
	add(notes)
	b.textHits(list.Marks[noteMarks:])
	add(glow)
	for _, s := range b.symbols {
		if !s.over {
			add(s.marks)
		}
	}
	// What hops is painted over what it hops over.
	for _, hopping := range [2]bool{false, true} {
		for _, l := range b.lines {
			if (len(l.hops) > 0) == hopping {
				add(l.marks)
			}
		}
	}
	add(groups)
	for _, s := range b.symbols {
		if s.over {
			add(s.marks)
		}
	}
	add(dots)
	add(tags)
	labelMarks := len(list.Marks)
	add(labels)
	b.textHits(list.Marks[labelMarks:])
	add(top)
	list.things = things{b.symbols, b.lines, b.notesHere, b.texts}
	return list
}

// kept counts the marks of symbols and lines.
func (b *build) kept() int {
	n := 0
	for _, s := range b.symbols {
		n += len(s.marks)
	}
	for _, l := range b.lines {
		n += len(l.marks)
	}
	return n
}

// textHits makes the texts among marks findable.
func (b *build) textHits(marks []Mark) {
	for i := range marks {
		if _, ok := marks[i].Op.(*Text); ok {
			b.texts = append(b.texts, textHit{mark: &marks[i]})
		}
	}
}

func (b *build) kind(name string) *schematic.Kind {
	k, seen := b.kinds[name]
	if !seen {
		k = b.doc.Kind(name)
		b.kinds[name] = k
	}
	return k
}

// findSymbols lists the views of parts on the sheet; those that are as they were
// come from the list before.
func (b *build) findSymbols() {
	b.byPart = make(map[schematic.ID][2]int32, len(b.old.symbols))
	b.symbols = make([]*symbol, 0, len(b.old.symbols))
	var fresh []int
	for p := range b.doc.Parts() {
		from := len(b.symbols)
		for i := range p.Views {
			if p.Views[i].Sheet != b.sheet.ID {
				continue
			}
			key := symbolKey{p, b.kind(p.Kind), i}
			s := b.old.symbols[key]
			if s == nil {
				fresh = append(fresh, len(b.symbols))
				s = &symbol{part: p, kind: key.kind, view: i}
				b.old.symbols[key] = s
			}
			s.drawn = b.old.builds
			b.symbols = append(b.symbols, s)
		}
		if to := len(b.symbols); to > from {
			b.byPart[p.ID] = [2]int32{int32(from), int32(to)}
		}
	}
	if len(b.old.symbols) > len(b.symbols) {
		for k, s := range b.old.symbols {
			if s.drawn != b.old.builds {
				b.dirty.symbol(s)
				delete(b.old.symbols, k)
			}
		}
	}
	inParallel(len(fresh), func(i int) { b.symbols[fresh[i]].draw(b.doc) })
	for _, i := range fresh {
		b.dirty.symbol(b.symbols[i])
	}
}

// shown returns the symbols of a part on the sheet.
func (b *build) shown(part schematic.ID) []*symbol {
	r := b.byPart[part]
	return b.symbols[r[0]:r[1]]
}

// pinAt names a pin by its symbol and its index there; symbol -1 is none.
type pinAt struct{ symbol, pin int }

// end returns where a wire's end lies on the sheet, as [schematic.Doc.EndAt]
// does, and at which pin.
func (b *build) end(e *schematic.End) (place, pinAt) {
	if !e.Loose() {
		r := b.byPart[e.Part]
		for _, exact := range [2]bool{true, false} {
			for i := r[0]; i < r[1]; i++ {
				s := b.symbols[i]
				if exact && s.shown != e.View {
					continue
				}
				if n := s.pin(e.Pin); n >= 0 {
					return place{s.pins[n].At, s.pins[n].Dir}, pinAt{int(i), n}
				}
			}
		}
	}
	return place{at: e.At}, pinAt{-1, -1}
}

// findLines lists the wires on the sheet with the pins they end at, and takes
// their room; those that are as they were come from the list before.
func (b *build) findLines() {
	b.lines = make([]*line, 0, len(b.old.lines))
	b.ends = make([][2]pinAt, 0, len(b.old.lines))
	var fresh []int
	for w := range b.doc.Wires() {
		if w.Sheet != b.sheet.ID {
			continue
		}
		a, atA := b.end(&w.A)
		z, atZ := b.end(&w.B)
		ends := [2]place{a, z}
		l := b.old.lines[w]
		if l == nil || l.ends != ends {
			if l != nil {
				b.dirty.gone(l)
			}
			fresh = append(fresh, len(b.lines))
			l = &line{wire: w, ends: ends}
			b.old.lines[w] = l
		}
		l.drawnIn = b.old.builds
		b.lines = append(b.lines, l)
		b.ends = append(b.ends, [2]pinAt{atA, atZ})
	}
	if len(b.old.lines) > len(b.lines) {
		for w, l := range b.old.lines {
			if l.drawnIn != b.old.builds {
				b.dirty.gone(l)
				delete(b.old.lines, w)
			}
		}
	}
	inParallel(len(fresh), func(i int) { b.lines[fresh[i]].route(b.opts.Show, b.old.words) })
	b.room.expect(len(b.lines))
	var tracks map[track]*[]int32 // only where there are sheaves
	if b.sheaves() {
		tracks = make(map[track]*[]int32, len(b.lines))
	}
	for i, l := range b.lines {
		for n := 1; n < len(l.path); n++ {
			if box := l.seg(n); tracks == nil || !b.covered(tracks, l.track(n), box) {
				b.room.take(taken{box: box, owner: int32(i), seg: int32(n)})
			}
		}
	}
	for _, i := range fresh {
		b.dirty.line(b.lines[i])
	}
	b.bridge()
}

// bridge draws the lines with the bridges they need. One that nothing has come
// or gone across keeps those it has.
func (b *build) bridge() {
	var again []int
	for i, l := range b.lines {
		if l.marks == nil || l.bridged == b.opts.NoHops || b.crossed(l) {
			again = append(again, i)
		}
	}
	before := make([][]hop, len(again))
	inParallel(len(again), func(n int) {
		l := b.lines[again[n]]
		var few [8]hop
		hops := few[:0]
		if !b.opts.NoHops {
			hops = b.hops(hops, again[n])
		}
		before[n] = l.hops
		l.draw(hops)
		l.bridged = !b.opts.NoHops
	})
	for n, i := range again {
		if l := b.lines[i]; !slices.Equal(before[n], l.hops) {
			b.dirty.hops(l, before[n])
			b.dirty.hops(l, l.hops)
		}
	}
}

// crossed reports whether something has come or gone on a level piece of a line.
func (b *build) crossed(l *line) bool {
	for n := 1; n < len(l.path); n++ {
		if l.path[n-1].Y == l.path[n].Y && b.dirty.near(l.seg(n)) {
			return true
		}
	}
	return false
}

// inParallel calls f for 0 to n-1, each once, on as many processors as there
// are, and returns when all is done. Small work stays on one.
func inParallel(n int, f func(i int)) {
	const least = 64 // below that, starting a goroutine costs more than it saves
	workers := min(runtime.GOMAXPROCS(0), n/least)
	if workers < 2 {
		for i := range n {
			f(i)
		}
		return
	}
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			for i := n * w / workers; i < n*(w+1)/workers; i++ {
				f(i)
			}
		})
	}
	wg.Wait()
}

// takeRoom enters what texts must keep clear of.
func (b *build) takeRoom() {
	for _, s := range b.symbols {
		b.room.block(s.solid)
		for _, t := range s.texts {
			b.room.block(t)
		}
		for _, t := range s.strokes {
			b.room.take(taken{box: t, owner: noOwner, seg: -1})
		}
	}
	for i, l := range b.lines {
		for _, h := range l.hops {
			b.room.take(taken{box: l.hopBox(h), owner: int32(i), seg: -1})
		}
	}
}

func (b *build) tags() []Mark {
	out := make([]Mark, 0, 2*len(b.symbols))
	for _, s := range b.symbols {
		marks := b.tagOf(s)
		out = append(out, marks...)
		for i := range marks {
			b.texts = append(b.texts, textHit{&marks[i], s.shown})
		}
	}
	return out
}
