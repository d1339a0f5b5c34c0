// Package loomfile reads and writes harness files (.loom.json), the recovery
// journal beside them and the text the clipboard carries.
//
// Start with [Load] and [Save]. FORMAT.md describes the format well enough to
// write a harness by hand; loom.schema.json says the same for machines.
package loomfile

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/canon"
)

// What a harness file says at its top.
const (
	Format  = "loomwright-harness"
	Version = 1 // the version written; older ones are migrated while reading
	// Ext ends the name of a harness file.
	Ext = ".loom.json"
)

// file is the whole of a harness file, in the order it is written.
type file struct {
	Format   string                  `json:"format"`
	Version  int                     `json:"version"`
	Info     *schematic.Info         `json:"info,omitempty"`
	Sheets   []*schematic.Sheet      `json:"sheets,omitempty"`
	Kinds    []*schematic.Kind       `json:"kinds,omitempty"`
	Parts    []*schematic.Part       `json:"parts,omitempty"`
	Wires    []*schematic.Wire       `json:"wires,omitempty"`
	Groups   []*schematic.Group      `json:"groups,omitempty"`
	Looms    []*schematic.Loom       `json:"looms,omitempty"`
	States   []*schematic.State      `json:"states,omitempty"`
	Notes    []*schematic.Note       `json:"notes,omitempty"`
	Readings []*schematic.Reading    `json:"readings,omitempty"`
	Accepted []*schematic.Acceptance `json:"accepted,omitempty"`
	Extra    schematic.Extra         `json:"-"`
}

// section is a list of a harness file.
type section struct {
	typ  schematic.ItemType
	list string // its field in the file
	word string // one of its items: in journals, and in IDs made from names
}

// sections returns the lists in file order.
func sections() []section {
	return []section{
		{schematic.TypeSheet, "sheets", "sheet"},
		{schematic.TypeKind, "kinds", "kind"},
		{schematic.TypePart, "parts", "part"},
		{schematic.TypeWire, "wires", "wire"},
		{schematic.TypeGroup, "groups", "group"},
		{schematic.TypeLoom, "looms", "loom"},
		{schematic.TypeState, "states", "state"},
		{schematic.TypeNote, "notes", "note"},
		{schematic.TypeReading, "readings", "reading"},
		{schematic.TypeAcceptance, "accepted", "acceptance"},
	}
}

func sectionOf(t schematic.ItemType) section {
	for _, s := range sections() {
		if s.typ == t {
			return s
		}
	}
	return section{typ: t, word: "info"}
}

// items returns the items of one list, in the order of the file.
func (f *file) items(t schematic.ItemType) []schematic.Item {
	switch t {
	case schematic.TypeSheet:
		return asItems(f.Sheets)
	case schematic.TypeKind:
		return asItems(f.Kinds)
	case schematic.TypePart:
		return asItems(f.Parts)
	case schematic.TypeWire:
		return asItems(f.Wires)
	case schematic.TypeGroup:
		return asItems(f.Groups)
	case schematic.TypeLoom:
		return asItems(f.Looms)
	case schematic.TypeState:
		return asItems(f.States)
	case schematic.TypeNote:
		return asItems(f.Notes)
	case schematic.TypeReading:
		return asItems(f.Readings)
	case schematic.TypeAcceptance:
		return asItems(f.Accepted)
	}
	return nil
}

func asItems[T schematic.Item](list []T) []schematic.Item {
	items := make([]schematic.Item, len(list))
	for i, it := range list {
		items[i] = it
	}
	return items
}

// add puts an item into its list.
func (f *file) add(it schematic.Item) {
	switch it := it.(type) {
	case *schematic.Info:
		f.Info = it
	case *schematic.Sheet:
		f.Sheets = append(f.Sheets, it)
	case *schematic.Kind:
		f.Kinds = append(f.Kinds, it)
	case *schematic.Part:
		f.Parts = append(f.Parts, it)
	case *schematic.Wire:
		f.Wires = append(f.Wires, it)
	case *schematic.Group:
		f.Groups = append(f.Groups, it)
	case *schematic.Loom:
		f.Looms = append(f.Looms, it)
	case *schematic.State:
		f.States = append(f.States, it)
	case *schematic.Note:
		f.Notes = append(f.Notes, it)
	case *schematic.Reading:
		f.Readings = append(f.Readings, it)
	case *schematic.Acceptance:
		f.Accepted = append(f.Accepted, it)
	}
}

// sort brings the lists into the order of the file: designations as people
// count, sheets and states as they are shown, readings by date, acceptances by rule; ties by ID.
func (f *file) sort() {
	sortBy(f.Sheets, func(a, b *schematic.Sheet) int { return cmp.Compare(a.Order, b.Order) })
	sortBy(f.Kinds, func(a, b *schematic.Kind) int { return cmp.Compare(a.Name, b.Name) })
	sortBy(f.Parts, byName)
	sortBy(f.Wires, byName)
	sortBy(f.Groups, byName)
	sortBy(f.Looms, byName)
	sortBy(f.States, func(a, b *schematic.State) int { return cmp.Compare(a.Order, b.Order) })
	sortBy(f.Notes, func(a, b *schematic.Note) int { return 0 })
	sortBy(f.Readings, func(a, b *schematic.Reading) int { return cmp.Compare(a.Date, b.Date) })
	sortBy(f.Accepted, func(a, b *schematic.Acceptance) int {
		return cmp.Or(cmp.Compare(a.Rule, b.Rule), cmp.Compare(a.Detail, b.Detail))
	})
}

func byName[T schematic.Item](a, b T) int {
	return schematic.CompareNames(schematic.NameOf(a), schematic.NameOf(b))
}

func sortBy[T schematic.Item](list []T, less func(a, b T) int) {
	slices.SortFunc(list, func(a, b T) int {
		if c := less(a, b); c != 0 {
			return c
		}
		return a.Key().Compare(b.Key())
	})
}

// Encode returns the canonical bytes of a document. The same document gives
// the same bytes on every system. It fails for a document with problems (see
// [schematic.Check]), because the file could not be read again.
func Encode(d *schematic.Doc) ([]byte, error) {
	// The check takes a fourth of the time and can go beside the rest.
	checked := make(chan []schematic.Problem)
	go func() { checked <- schematic.Check(d) }()
	data, err := encode(d)
	if problems := <-checked; len(problems) > 0 {
		p := problems[0]
		return nil, fmt.Errorf("%d mistakes in the drawing, the first at %s: %s: undo the last step and save again",
			len(problems), schematic.Describe(d.Get(p.At)), p)
	}
	return data, err
}

// encode is [Encode] without the check.
func encode(d *schematic.Doc) ([]byte, error) {
	f := file{Format: Format, Version: Version, Extra: d.Extra()}
	for it := range d.All() {
		f.add(it)
	}
	f.sort()
	return canon.Encode(&f)
}

// Write writes the canonical bytes of a document.
func Write(w io.Writer, d *schematic.Doc) error {
	data, err := Encode(d)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}
