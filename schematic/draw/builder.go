package draw

import (
	"slices"
	"sync"

	"loomwright/calc/unit"
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
	room   space // lent to the build at work
}

// memory is what the builder keeps of a sheet: the pieces of the list drawn
// last and a few whole lists.
type memory struct {
	builds  int // counts builds
	show    unit.Show
	words   []schematic.WireWord // on wires
	symbols map[symbolKey]*symbol
	lines   map[*schematic.Wire]*line
	lists   []drawn
	fixed   []taken // by dots, frame, notes and groups
	size    Point
	dirty   dirty
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
	if words := d.Info().LabelWords(); m == nil || m.show != o.Show || !slices.Equal(m.words, words) {
		m = &memory{show: o.Show, words: words, symbols: map[symbolKey]*symbol{}, lines: map[*schematic.Wire]*line{}}
		b.sheets[sheet] = m
	}
	for i, e := range m.lists {
		if e.doc == d && e.opts == o {
			copy(m.lists[1:], m.lists[:i])
			m.lists[0] = e
			return e.list
		}
	}
	l := newBuild(d, sh, o, m, &b.room).run()
	m.lists = slices.Insert(m.lists, 0, drawn{d, o, l})
	m.lists = m.lists[:min(len(m.lists), keptLists)]
	return l
}
