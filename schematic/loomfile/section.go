package loomfile

import (
	"cmp"
	"slices"

	"loomwright/schematic"
)

// section is a list of a harness file.
type section struct {
	typ  schematic.ItemType
	list string // its field in the file
	word string // one of its items: in journals, and in IDs made from names

	blank func() schematic.Item        // an item that says nothing yet
	items func(*file) []schematic.Item // in the order of the file
	add   func(*file, schematic.Item)
	sort  func(*file)
}

// sections are the lists in the order of the file. They are sorted by
// designation as people count, sheets and states as they are shown, readings by
// date, acceptances by rule; ties by ID.
var sections = []section{
	listed("sheets", "sheet", func(f *file) *[]*schematic.Sheet { return &f.Sheets },
		func(a, b *schematic.Sheet) int { return cmp.Compare(a.Order, b.Order) }),
	listed("kinds", "kind", func(f *file) *[]*schematic.Kind { return &f.Kinds },
		func(a, b *schematic.Kind) int { return cmp.Compare(a.Name, b.Name) }),
	listed("parts", "part", func(f *file) *[]*schematic.Part { return &f.Parts }, byName),
	listed("wires", "wire", func(f *file) *[]*schematic.Wire { return &f.Wires }, byName),
	listed("groups", "group", func(f *file) *[]*schematic.Group { return &f.Groups }, byName),
	listed("looms", "loom", func(f *file) *[]*schematic.Loom { return &f.Looms }, byName),
	listed("states", "state", func(f *file) *[]*schematic.State { return &f.States },
		func(a, b *schematic.State) int { return cmp.Compare(a.Order, b.Order) }),
	listed("notes", "note", func(f *file) *[]*schematic.Note { return &f.Notes },
		func(a, b *schematic.Note) int { return 0 }),
	listed("readings", "reading", func(f *file) *[]*schematic.Reading { return &f.Readings },
		func(a, b *schematic.Reading) int { return cmp.Compare(a.Date, b.Date) }),
	listed("accepted", "acceptance", func(f *file) *[]*schematic.Acceptance { return &f.Accepted },
		func(a, b *schematic.Acceptance) int {
			return cmp.Or(cmp.Compare(a.Rule, b.Rule), cmp.Compare(a.Detail, b.Detail))
		}),
}

// listed is the section of the items that lie in a field of the file.
func listed[T any, P interface {
	*T
	schematic.Item
}](list, word string, field func(*file) *[]P, order func(a, b P) int) section {
	return section{
		typ: P(new(T)).Key().Type, list: list, word: word,
		blank: func() schematic.Item { return P(new(T)) },
		items: func(f *file) []schematic.Item {
			items := make([]schematic.Item, len(*field(f)))
			for i, it := range *field(f) {
				items[i] = it
			}
			return items
		},
		add: func(f *file, it schematic.Item) { *field(f) = append(*field(f), it.(P)) },
		sort: func(f *file) {
			slices.SortFunc(*field(f), func(a, b P) int {
				if c := order(a, b); c != 0 {
					return c
				}
				return a.Key().Compare(b.Key())
			})
		},
	}
}

func byName[T schematic.Item](a, b T) int {
	return schematic.CompareNames(schematic.NameOf(a), schematic.NameOf(b))
}

// infoWord is what journals call the one item that lies in no list.
const infoWord = "info"

// sectionOf returns the list of a type; the info has the word alone.
func sectionOf(t schematic.ItemType) section {
	if i := slices.IndexFunc(sections, func(s section) bool { return s.typ == t }); i >= 0 {
		return sections[i]
	}
	return section{typ: t, word: infoWord}
}

// newItem returns an item of the type that journals call by a word; nil for
// other words.
func newItem(word string) schematic.Item {
	if word == infoWord {
		return &schematic.Info{}
	}
	if i := slices.IndexFunc(sections, func(s section) bool { return s.word == word }); i >= 0 {
		return sections[i].blank()
	}
	return nil
}

// add puts an item into its list.
func (f *file) add(it schematic.Item) {
	if info, ok := it.(*schematic.Info); ok {
		f.Info = info
		return
	}
	sectionOf(it.Key().Type).add(f, it)
}

// sort brings the lists into the order of the file.
func (f *file) sort() {
	for _, s := range sections {
		s.sort(f)
	}
}
