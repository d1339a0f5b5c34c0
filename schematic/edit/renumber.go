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

// Renumber gives all parts, or wires, whose designation is prefix and a number
// new numbers from 1 on: sheet by sheet in tab order, from left to right, then
// downwards. Numbers that other items bear are passed over.
func Renumber(tx *Tx, prefix string) error {
	d := tx.doc
	order := map[schematic.ID]int{}
	for i, s := range d.Sheets() {
		order[s.ID] = i
	}
	type entry struct {
		item  schematic.Item
		sheet int
		at    geom.Point
	}
	var all []entry
	add := func(it schematic.Item, sheet schematic.ID, at geom.Point) {
		if name := schematic.NameOf(it); stem(name) == prefix && name != prefix {
			n, ok := order[sheet]
			if !ok {
				n = len(order) // shown nowhere: last
			}
			all = append(all, entry{it, n, at})
		}
	}
	for p := range d.Parts() {
		if len(p.Views) == 0 {
			add(p, schematic.ID{}, geom.Point{})
			continue
		}
		v := p.Views[0]
		add(p, v.Sheet, d.Body(p, v).Min)
	}
	for w := range d.Wires() {
		add(w, w.Sheet, d.Path(w).Bounds().Min)
	}
	if len(all) == 0 {
		return fmt.Errorf("no designation is %q with a number: nothing to renumber", prefix)
	}
	slices.SortFunc(all, func(a, b entry) int {
		return cmp.Or(cmp.Compare(a.sheet, b.sheet), cmp.Compare(a.at.X, b.at.X), cmp.Compare(a.at.Y, b.at.Y), compareItems(a.item, b.item))
	})
	mine := map[schematic.Key]bool{}
	for _, e := range all {
		mine[e.item.Key()] = true
	}
	n := 0
	puts := make([]schematic.Item, 0, len(all))
	for _, e := range all {
		var name string
		for {
			n++
			name = prefix + strconv.Itoa(n)
			if k, taken := d.Named(name); !taken || mine[k] {
				break
			}
		}
		switch it := e.item.(type) {
		case *schematic.Part:
			c := *it
			c.Name = name
			puts = append(puts, &c)
		case *schematic.Wire:
			c := *it
			c.Name = name
			puts = append(puts, &c)
		}
	}
	tx.Put(puts...)
	return nil
}

// stem returns a designation without its number: K for K12.
func stem(name string) string { return strings.TrimRight(name, "0123456789") }

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
		prefix = stem(want)
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
