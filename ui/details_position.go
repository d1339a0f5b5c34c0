package ui

import (
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// positionChoice says where a switch stands in the operating state looked at,
// so that it can be switched where it is seen. It is nil for parts without
// positions and for drawings without states.
func (d *details) positionChoice(e partEdits, k *schematic.Kind) control {
	if k == nil || len(k.Positions) == 0 || d.ed.doc().State(d.ed.study.state) == nil {
		return nil
	}
	now := func() string {
		if st := d.ed.doc().State(d.ed.study.state); st != nil {
			for _, x := range st.Set {
				if x.Part == e.id && x.Item == "" && x.Position != "" {
					return x.Position
				}
			}
		}
		return k.Positions[0]
	}
	return d.newChoice("Position", func() []string { return k.Positions }, now, func(v string) {
		if v == k.Positions[0] {
			v = "" // where it stands of itself
		}
		d.ed.report(d.ed.try("switch "+e.part().Name, func(tx *edit.Tx) error {
			return edit.Switch(tx, d.ed.study.state, e.id, "", v)
		}))
	})
}
