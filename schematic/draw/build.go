package draw

import (
	"slices"
	"sync"

	"loomwright/schematic"
)

// Sheet draws one sheet of a document afresh. A sheet the document lacks gives
// an empty list. To draw a document again and again, use a [Builder].
func Sheet(d *schematic.Doc, sheet schematic.ID, o Options) *List {
	return new(Builder).Sheet(d, sheet, o)
}

// Builder draws sheets and remembers what it drew, so that after an edit only
// what changed is drawn anew, and the same snapshot gives the same list. The
// zero value is ready; it is safe for use by several goroutines.
type Builder struct {
	mu     sync.Mutex
	sheets map[schematic.ID]*memory
}

// memory is what the builder keeps of a sheet: the pieces of the list drawn
// last and a few whole lists.
type memory struct {
	symbols map[symbolKey]*symbol
	lines   map[*schematic.Wire]*line
	lists   []drawn
}

type symbolKey struct {
	part *schematic.Part
	kind *schematic.Kind
	view int
}

type drawn struct {
	doc  *schematic.Doc
	opts Options
	list *List
}

// keptLists is how many whole lists a sheet keeps: the document, a preview of
// it, and a few steps of undo and redo.
const keptLists = 4

// Sheet returns the display list of a sheet.
func (b *Builder) Sheet(d *schematic.Doc, sheet schematic.ID, o Options) *List {
	b.mu.Lock()
	defer b.mu.Unlock()
	sh := d.Sheet(sheet)
	if sh == nil {
		delete(b.sheets, sheet)
		return &List{}
	}
	if b.sheets == nil {
		b.sheets = map[schematic.ID]*memory{}
	}
	m := b.sheets[sheet]
	if m == nil {
		m = &memory{}
		b.sheets[sheet] = m
	}
	for i, e := range m.lists {
		if e.doc == d && e.opts == o {
			copy(m.lists[1:], m.lists[:i])
			m.lists[0] = e
			return e.list
		}
	}
	l := newBuild(d, sh, o, m).run()
	m.lists = slices.Insert(m.lists, 0, drawn{d, o, l})
	m.lists = m.lists[:min(len(m.lists), keptLists)]
	return l
}

// build is the making of one list.
type build struct {
	doc   *schematic.Doc
	sheet *schematic.Sheet
	opts  Options
	live  Live
	old   *memory

	kinds     map[string]*schematic.Kind
	symbols   []*symbol
	byPart    map[schematic.ID][]int // indices of symbols
	lines     []*line
	ends      [][2]pinAt // per line
	dots      []dot
	notesHere []*schematic.Note
	room      space
	strips    []strip // reused from label to label
	gaps      []span
	hits      []hit
}

func newBuild(d *schematic.Doc, sh *schematic.Sheet, o Options, old *memory) *build {
	b := &build{doc: d, sheet: sh, opts: o, old: old, kinds: map[string]*schematic.Kind{}}
	if o.Live != nil {
		b.live = *o.Live
	}
	size := mm(sh.Area().Max)
	b.room.reset(size.X, size.Y)
	return b
}

func (b *build) run() *List {
	b.findSymbols()
	b.findLines()
	b.takeRoom()
	b.findDots()
	b.findNotes()

	list := &List{Size: mm(b.sheet.Area().Max)}
	var under, over pen
	for _, s := range b.symbols {
		if s.over {
			over.marks = append(over.marks, s.marks...)
		} else {
			under.marks = append(under.marks, s.marks...)
		}
	}
	frame, notes, groups := b.frame(), b.notes(), b.groups()
	var wires, tags, labels pen
	// What hops is painted over what it hops over.
	for _, hopping := range [2]bool{false, true} {
		for _, l := range b.lines {
			if (len(l.hops) > 0) == hopping {
				wires.marks = append(wires.marks, l.marks...)
			}
		}
	}
	b.tags(&tags)
	b.labels(&labels)
	glow, top := b.glow(), b.overlay()

	for _, layer := range [][]Mark{frame, notes, glow, under.marks, wires.marks, groups, over.marks, b.dotMarks(), tags.marks, labels.marks, top} {
		list.Marks = append(list.Marks, layer...)
	}
	b.collectHits(notes, labels.marks)
	list.hits = b.hits
	return list
}

func (b *build) kind(name string) *schematic.Kind {
	k, seen := b.kinds[name]
	if !seen {
		k = b.doc.Kind(name)
		b.kinds[name] = k
	}
	return k
}

func (b *build) findSymbols() {
	kept := make(map[symbolKey]*symbol, len(b.old.symbols))
	b.byPart = make(map[schematic.ID][]int, len(b.old.symbols))
	for p := range b.doc.Parts() {
		for i := range p.Views {
			if p.Views[i].Sheet != b.sheet.ID {
				continue
			}
			key := symbolKey{p, b.kind(p.Kind), i}
			s := b.old.symbols[key]
			if s == nil {
				s = newSymbol(b.doc, p, key.kind, i)
			}
			kept[key] = s
			b.byPart[p.ID] = append(b.byPart[p.ID], len(b.symbols))
			b.symbols = append(b.symbols, s)
		}
	}
	b.old.symbols = kept
}

// pinAt names a pin by its symbol and its index there; symbol -1 is none.
type pinAt struct{ symbol, pin int }

// end returns where a wire's end lies on the sheet, as [schematic.Doc.EndAt]
// does, and at which pin.
func (b *build) end(e schematic.End) (place, pinAt) {
	if !e.Loose() {
		for _, exact := range [2]bool{true, false} {
			for _, i := range b.byPart[e.Part] {
				s := b.symbols[i]
				if exact && s.of().Key != e.View {
					continue
				}
				if n := s.pin(e.Pin); n >= 0 {
					return place{s.pins[n].At, s.pins[n].Dir}, pinAt{i, n}
				}
			}
		}
	}
	return place{at: e.At}, pinAt{-1, -1}
}

func (b *build) findLines() {
	kept := make(map[*schematic.Wire]*line, len(b.old.lines))
	for w := range b.doc.Wires() {
		if w.Sheet != b.sheet.ID {
			continue
		}
		a, atA := b.end(w.A)
		z, atZ := b.end(w.B)
		ends := [2]place{a, z}
		l := b.old.lines[w]
		if l == nil || l.ends != ends {
			l = newLine(w, ends)
		}
		b.lines = append(b.lines, l)
		b.ends = append(b.ends, [2]pinAt{atA, atZ})
	}
	for i, l := range b.lines {
		for n := 1; n < len(l.path); n++ {
			b.room.take(taken{box: l.seg(n), owner: int32(i), seg: int32(n)})
		}
	}
	drawn := make([]*line, len(b.lines))
	for i, l := range b.lines {
		var hops []hop
		if !b.opts.NoHops {
			hops = b.hops(i)
		}
		drawn[i] = l.withHops(hops)
		kept[l.wire] = drawn[i]
	}
	b.lines, b.old.lines = drawn, kept
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
			y := mm(l.path[h.seg]).Y
			box := Box{Point{h.x - h.radius, y - h.radius}, Point{h.x + h.radius, y}}.Grow(l.width/2 + rimWidth)
			b.room.take(taken{box: box, owner: int32(i), seg: -1})
		}
	}
}

func (b *build) tags(p *pen) {
	for _, s := range b.symbols {
		p.owner = s.part.Key()
		from := len(p.marks)
		s.tag.write(p, &b.room)
		for _, m := range p.marks[from:] {
			b.hits = append(b.hits, hit{rank: onText, key: m.Owner, view: s.of().Key, box: m.Bound, loose: true})
		}
	}
}
