package edit

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Numbering says how to number things anew.
type Numbering struct {
	Prefix string // the letters before the number
	Start  int    // the first number
	// Columns goes down column by column; otherwise rows are followed from left
	// to right.
	Columns bool
}

// band is how far two things may lie apart, across the way things are counted,
// and still stand in one row or column, in units.
const band = 6 * geom.Grid

// Renumber gives the parts and wires among the keys new designations, by sheet
// in tab order and there by place. Designations that other items bear are
// passed over. Keys of anything else are ignored.
func Renumber(tx *Tx, keys []schematic.Key, n Numbering) error {
	if err := n.check(); err != nil {
		return err
	}
	all := numbered(tx.doc, keys, n.Columns)
	if len(all) == 0 {
		return fmt.Errorf("there is no part or wire to renumber: choose others")
	}
	mine := map[schematic.Key]bool{}
	for _, e := range all {
		mine[e.item.Key()] = true
	}
	next := n.Start
	puts := make([]schematic.Item, 0, len(all))
	for _, e := range all {
		name := n.Prefix + strconv.Itoa(next)
		for k, taken := tx.doc.Named(name); taken && !mine[k]; k, taken = tx.doc.Named(name) {
			next++
			name = n.Prefix + strconv.Itoa(next)
		}
		next++
		puts = append(puts, named(e.item, name))
	}
	tx.Put(puts...)
	return nil
}

func (n Numbering) check() error {
	switch {
	case strings.TrimSpace(n.Prefix) == "" || strings.TrimSpace(n.Prefix) != n.Prefix:
		return fmt.Errorf("%q are no letters for a designation: write one or more, such as F or W", n.Prefix)
	case Stem(n.Prefix) != n.Prefix:
		return fmt.Errorf("%q ends in a digit, which would run into the number: write letters such as F or W", n.Prefix)
	case n.Start < 0 || n.Start > 1_000_000:
		return fmt.Errorf("%d is no number to start from: write one from 0 to 1000000", n.Start)
	}
	return nil
}

// named returns a copy of a part or wire with another designation.
func named(it schematic.Item, name string) schematic.Item {
	switch it := it.(type) {
	case *schematic.Part:
		c := *it
		c.Name = name
		return &c
	case *schematic.Wire:
		c := *it
		c.Name = name
		return &c
	}
	return it
}

// spot is a thing to be numbered and where it is counted.
type spot struct {
	item  schematic.Item
	sheet int
	at    geom.Point // across and along the way things are counted
	row   int
}

// numbered returns the parts and wires among the keys in the order they are
// counted in.
func numbered(d *schematic.Doc, keys []schematic.Key, columns bool) []spot {
	order := map[schematic.ID]int{}
	for i, s := range d.Sheets() {
		order[s.ID] = i
	}
	var all []spot
	add := func(it schematic.Item, sheet schematic.ID, at geom.Point) {
		n, ok := order[sheet]
		if !ok {
			n = len(order) // shown nowhere: last
		}
		if columns {
			at.X, at.Y = at.Y, at.X
		}
		all = append(all, spot{item: it, sheet: n, at: at})
	}
	seen := map[schematic.Key]bool{}
	for _, k := range keys {
		if seen[k] {
			continue
		}
		seen[k] = true
		switch it := d.Get(k).(type) {
		case *schematic.Part:
			if len(it.Views) == 0 {
				add(it, schematic.ID{}, geom.Point{})
				continue
			}
			add(it, it.Views[0].Sheet, d.Body(it, it.Views[0]).Min)
		case *schematic.Wire:
			add(it, it.Sheet, d.Path(it).Bounds().Min)
		}
	}
	slices.SortFunc(all, func(a, b spot) int {
		return cmp.Or(cmp.Compare(a.sheet, b.sheet), cmp.Compare(a.at.Y, b.at.Y), cmp.Compare(a.at.X, b.at.X), compareItems(a.item, b.item))
	})
	// A row reaches a little down from its topmost thing, so that a symbol
	// slightly higher than its neighbours does not make a row of its own.
	row, top := 0, 0
	for i := range all {
		if i == 0 || all[i].sheet != all[i-1].sheet || all[i].at.Y-top > band {
			row, top = row+1, all[i].at.Y
		}
		all[i].row = row
	}
	slices.SortStableFunc(all, func(a, b spot) int {
		return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.at.X, b.at.X))
	})
	return all
}

// Stem returns a designation without its number: K for K12.
func Stem(name string) string { return strings.TrimRight(name, "0123456789") }

// namer hands out designations nobody bears yet, lowest number first.
type namer struct {
	d     *schematic.Doc
	taken map[string]bool
	next  map[string]int
}

func newNamer(d *schematic.Doc) *namer {
	return &namer{d: d, taken: map[string]bool{}, next: map[string]int{}}
}

// claim returns the wanted designation, or another with the same letters when
// it is taken; prefix stands in for an empty one.
func (n *namer) claim(want, prefix string) string {
	if want != "" {
		prefix = Stem(want)
		if _, used := n.d.Named(want); !used && !n.taken[want] {
			n.taken[want] = true
			return want
		}
	}
	for i := n.next[prefix] + 1; ; i++ {
		name := prefix + strconv.Itoa(i)
		if _, used := n.d.Named(name); !used && !n.taken[name] {
			n.taken[name], n.next[prefix] = true, i
			return name
		}
	}
}

// free returns an error that names who bears a designation already.
func free(d *schematic.Doc, name string, me schematic.Key) error {
	if k, used := d.Named(name); used && k != me {
		return fmt.Errorf("%s is taken by %s: choose another designation", name, taker(d, k))
	}
	return nil
}

func taker(d *schematic.Doc, k schematic.Key) string {
	if p := d.Part(k.ID); p != nil && p.Label != "" {
		return fmt.Sprintf("the %s %q", k.Type, p.Label)
	}
	return "another " + k.Type.String()
}
