package check

import (
	"fmt"

	"loomwright/schematic"
)

var designation = Rule{
	ID:    "designation given twice",
	Title: "Parts or wires of one name",
	Help: "Every part and every wire has a designation of its own: labels, cut lists and pin-outs name things by it. Parts and wires without any are " +
		"named too.",
	Source: "common practice, no source",
	run: func(r *run) {
		var parts, wires []named
		for _, p := range r.parts() {
			parts = append(parts, named{p.Name, p.Key()})
		}
		for _, w := range r.wires() {
			wires = append(wires, named{w.Name, w.Key()})
		}
		r.designations(parts, "parts", "part")
		r.designations(wires, "wires", "wire")
	},
}

// named is an item with its designation.
type named struct {
	name string
	key  schematic.Key
}

// designations looks at items in the order of their names.
func (r *run) designations(all []named, plural, singular string) {
	for i := 0; i < len(all); {
		j := i + 1
		for j < len(all) && all[j].name == all[i].name {
			j++
		}
		f := Finding{Severity: Warning}
		for _, x := range all[i:j] {
			f.Items = append(f.Items, x.key)
		}
		switch {
		case all[i].name == "" && j-i == 1:
			f.Text = fmt.Sprintf("One %s has no designation.", singular)
			f.Fixes = r.renamed(all[i].key)
			r.add(f)
		case all[i].name == "":
			f.Text = fmt.Sprintf("%d %s have no designation.", j-i, plural)
			r.add(f)
		case j-i > 1:
			f.Text = fmt.Sprintf("%d %s are called %s.", j-i, plural, all[i].name)
			f.Value, f.Limit = schematic.Some(float64(j-i)), schematic.Some(1)
			if j-i == 2 {
				f.Fixes = r.renamed(all[i+1].key)
			}
			r.add(f)
		}
		i = j
	}
}
