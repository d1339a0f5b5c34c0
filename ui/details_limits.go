package ui

import (
	"fmt"
	"maps"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"loomwright/calc/unit"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// showLimits goes to the limits in the details of the drawing and puts the
// keyboard into the first of them.
func (ed *Editor) showLimits() {
	ed.showDetails()
	ed.choose()
	d := ed.details
	d.scroll.ScrollToOffset(fyne.NewPos(0, d.limits.head.Position().Y))
	ed.win.Canvas().Focus(d.limits.first.input)
}

// limitControls edit what the checks hold values against: every limit with its
// default and the source of that, and the named choices.
func (d *details) limitControls() []control {
	ed := d.ed
	head := heading("Limits of the checks")
	d.limits.head, d.limits.first = head.object(), nil
	cs := []control{head, remark("Empty means the default. A limit of your own is named as yours in the findings.")}
	for _, l := range check.Limits() {
		q, known := quantityOf(l.Unit)
		title := sentence(l.Title)
		if !known && l.Unit != "" {
			title += " (" + l.Unit + ")"
		}
		print := func(v float64) string { return unit.Format(q, v, ed.system()) }
		f := newField(title,
			func() string {
				v, ok := ed.doc().Info().Limits[l.Name]
				if !ok {
					return ""
				}
				return ed.quantity(q, schematic.Some(v))
			},
			func(s string) error {
				v, err := 0.0, error(nil)
				if strings.TrimSpace(s) != "" {
					if v, err = readLimit(q, known, s); err != nil {
						return err
					}
				}
				return ed.try("set limit: "+l.Title, func(tx *edit.Tx) error {
					return edit.SetInfo(tx, func(i *schematic.Info) {
						c := maps.Clone(i.Limits)
						if c == nil {
							c = map[string]float64{}
						}
						if strings.TrimSpace(s) == "" {
							delete(c, l.Name)
						} else {
							c[l.Name] = v
						}
						i.Limits = c
					})
				})
			})
		if v, ok := l.Default.Get(); ok {
			f.hint(print(v) + " by default")
		}
		if d.limits.first == nil {
			d.limits.first = f
		}
		cs = append(cs, withRemark(f, l.Source))
	}
	for _, ch := range check.Choices() {
		cs = append(cs, d.newChoice(sentence(ch.Title),
			func() []string { return ch.Options },
			func() string {
				if v := ed.doc().Info().Choices[ch.Name]; v != "" {
					return v
				}
				return ch.Options[0]
			},
			func(v string) {
				ed.report(ed.try("choose "+v, func(tx *edit.Tx) error {
					return edit.SetInfo(tx, func(i *schematic.Info) {
						c := maps.Clone(i.Choices)
						if c == nil {
							c = map[string]string{}
						}
						if c[ch.Name] = v; v == ch.Options[0] {
							delete(c, ch.Name)
						}
						i.Choices = c
					})
				}))
			}))
	}
	return cs
}

// quantityOf returns the quantity of a unit as rules write it; false for units
// that have no quantity of their own, such as seconds.
func quantityOf(u string) (unit.Quantity, bool) {
	q := schematic.QuantityOf(u)
	return q, q != unit.Ratio || u == "ratio"
}

func readLimit(q unit.Quantity, known bool, s string) (float64, error) {
	if known {
		return unit.Parse(q, s)
	}
	v, err := strconv.ParseFloat(strings.Replace(strings.TrimSpace(s), ",", ".", 1), 64)
	if err != nil {
		return 0, fmt.Errorf("%q is not a number", s)
	}
	return v, nil
}
