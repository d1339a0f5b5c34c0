package edit

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// told prints differences as a list for people does.
func told(ds []Difference) []string {
	var out []string
	for _, d := range ds {
		line := d.What() + " " + schematic.Describe(d.Item())
		for _, f := range d.Fields {
			line += fmt.Sprintf(" | %s: %s -> %s", f.Name, f.Before, f.After)
		}
		out = append(out, line)
	}
	return out
}

// twoFuses is a lamp behind a fuse, with IDs of the given origin.
func twoFuses(origin byte) *schematic.Doc {
	id := func(n byte) schematic.ID { return schematic.ID{0: origin, 15: n} }
	sheet := id(1)
	at := func(x int) []schematic.View { return []schematic.View{{Sheet: sheet, At: geom.Pt(x, 100)}} }
	loom := &schematic.Loom{ID: id(9), Name: "L1", Nodes: []schematic.Node{{ID: id(10), Name: "N1"}, {ID: id(11), Name: "N2"}},
		Segments: []schematic.Segment{{ID: id(12), From: id(10), To: id(11), LengthMM: schematic.Some(500)}}}
	return New(testLibrary(),
		&schematic.Sheet{ID: sheet, Name: "Lights"},
		&schematic.Part{ID: id(2), Name: "F1", Kind: "fuse", Views: at(100), Values: map[string]float64{"rating_amp": 10}},
		&schematic.Part{ID: id(3), Name: "E1", Kind: "lamp", Views: at(200), Loom: id(9), Node: id(11)},
		&schematic.Wire{ID: id(4), Name: "W1", Sheet: sheet, A: schematic.End{Part: id(2), Pin: "2"}, B: schematic.End{Part: id(3), Pin: "1"},
			Size: unit.MM2(1.5), Color: schematic.Color{Base: "RD"}, Loom: id(9)},
		&schematic.State{ID: id(5), Name: "Running", Set: []schematic.Setting{{Part: id(3), Duty: schematic.Some(0.5)}}},
		&schematic.Note{ID: id(6), Sheet: sheet, Text: "mind the exhaust"},
		loom,
	)
}

// New returns a document of some items.
func New(lib *schematic.Library, items ...schematic.Item) *schematic.Doc {
	d := schematic.New(lib)
	for _, it := range items {
		d = d.With(schematic.Put{Key: it.Key(), Item: it})
	}
	return d
}

func TestCompare(t *testing.T) {
	part := func(name string) func(*schematic.Doc) schematic.ID {
		return func(d *schematic.Doc) schematic.ID { k, _ := d.Named(name); return k.ID }
	}
	f1, w1, e1 := part("F1"), part("W1"), part("E1")
	for _, c := range []struct {
		why  string
		edit func(*Tx)
		want []string
	}{
		{"nothing", func(*Tx) {}, nil},
		{"value in its unit", func(tx *Tx) {
			tx.EditPart(f1(tx.Doc()), func(p *schematic.Part) { p.Values = map[string]float64{"rating_amp": 15} })
		}, []string{"changed part F1 | rating amp: 10 A -> 15 A"}},
		{"moved and turned", func(tx *Tx) {
			tx.EditPart(e1(tx.Doc()), func(p *schematic.Part) {
				p.Views = []schematic.View{{Sheet: p.Views[0].Sheet, At: geom.Pt(225, 100), Turns: 1}}
			})
		}, []string{"changed part E1 | symbol: place: 20, 10 mm -> 22.5, 10 mm | symbol: turned:  -> 90°"}},
		{"wire", func(tx *Tx) {
			tx.EditWire(w1(tx.Doc()), func(w *schematic.Wire) {
				w.Size, w.Color, w.B.Pin = unit.GaugeAWG(14), schematic.Color{Base: "RD", Tracer: "WH"}, "2"
				w.LengthMM = schematic.Some(1200)
			})
		}, []string{"changed wire W1 | end B: E1 pin 1 -> E1 pin 2 | size: 1.5 mm² -> AWG 14 | colour: RD -> RD/WH | length:  -> 1200 mm"}},
		{"a name alone does not change what refers to it", func(tx *Tx) {
			tx.EditPart(e1(tx.Doc()), func(p *schematic.Part) { p.Name = "E7" })
		}, []string{"changed part E7 | designation: E1 -> E7"}},
		{"gone and new", func(tx *Tx) {
			tx.Delete(schematic.Key{Type: schematic.TypeWire, ID: w1(tx.Doc())})
			tx.Put(&schematic.Note{ID: tx.NewID(), Sheet: tx.Doc().Sheets()[0].ID, Text: "new"})
		}, []string{"removed wire W1", `added note "new"`}},
		{"an element that is new is named once", func(tx *Tx) {
			tx.EditPart(e1(tx.Doc()), func(p *schematic.Part) {
				p.Pins = []schematic.Pin{{Name: "A1", Title: "injector", Role: "input"}}
			})
		}, []string{"changed part E1 | pin A1:  -> there"}},
		{"fields that nobody knows", func(tx *Tx) {
			tx.EditPart(e1(tx.Doc()), func(p *schematic.Part) { p.Extra = schematic.Extra{"shelf": []byte(`"B3"`)} })
		}, []string{`changed part E1 | field "shelf":  -> "B3"`}},
	} {
		a := twoFuses(1)
		tx := Begin(a, nil)
		c.edit(tx)
		assert.Equal(t, c.want, told(Compare(a, tx.Doc())), c.why)
		back := Compare(tx.Doc(), a)
		require.Len(t, back, len(c.want), c.why)
	}
}

// Files that were made apart have other IDs for the same things.
func TestCompareByDesignation(t *testing.T) {
	a, b := twoFuses(1), twoFuses(2)
	assert.Empty(t, told(Compare(a, b)))
	tx := Begin(b, nil)
	k, _ := b.Named("W1")
	f, _ := b.Named("F1")
	tx.EditWire(k.ID, func(w *schematic.Wire) { w.A.Part, w.A.Pin = w.B.Part, "2" })
	tx.EditPart(f.ID, func(p *schematic.Part) { p.Name = "F9" })
	assert.Equal(t, []string{"removed part F1", "added part F9", "changed wire W1 | end A: F1 pin 2 -> E1 pin 2"}, told(Compare(a, tx.Doc())))
}

// No field may be forgotten: whatever is set in an item is a difference.
func TestCompareSeesEveryField(t *testing.T) {
	base := twoFuses(1)
	n := 0
	for it := range base.All() {
		for _, path := range leaves(reflect.TypeOf(it).Elem(), nil) {
			c := reflect.New(reflect.TypeOf(it).Elem())
			c.Elem().Set(reflect.ValueOf(it).Elem())
			if !touch(c.Elem(), path) {
				continue
			}
			changed := c.Interface().(schematic.Item)
			if changed.Key() != it.Key() {
				continue // another item
			}
			n++
			got := Compare(base, base.With(schematic.Put{Key: it.Key(), Item: changed}))
			name := reflect.TypeOf(it).Elem().FieldByIndex(path).Name
			if assert.Len(t, got, 1, "%T.%s", it, name) {
				assert.NotEmpty(t, got[0].Fields, "%T.%s", it, name)
				for _, f := range got[0].Fields {
					assert.NotEqual(t, f.Before, f.After, "%T.%s", it, name)
					assert.NotEmpty(t, strings.TrimSpace(f.Name), "%T.%s", it, name)
				}
			}
		}
	}
	assert.Greater(t, n, 60)
}

// leaves lists the fields of a struct and of the structs in it.
func leaves(t reflect.Type, at []int) [][]int {
	var out [][]int
	for i := range t.NumField() {
		f := t.Field(i)
		path := append(append([]int(nil), at...), i)
		if f.Type == reflect.TypeFor[schematic.End]() {
			out = append(out, leaves(f.Type, path)...)
			continue
		}
		out = append(out, path)
	}
	return out
}

// touch gives a field another value.
func touch(v reflect.Value, path []int) bool {
	f := v.FieldByIndex(path)
	switch x := f.Addr().Interface().(type) {
	case *schematic.ID:
		*x = schematic.ID{0: 1, 15: 99}
		return path[0] != 0
	case *schematic.Num:
		*x = schematic.Some(x.Or(0) + 17)
	case *geom.Point:
		if len(path) > 1 {
			return false // the place of an end that is at a pin means nothing
		}
		*x = x.Add(geom.Pt(25, 25))
	case *unit.Size:
		*x = unit.GaugeSAE(10)
	case *schematic.Color:
		*x = schematic.Color{Base: "GN"}
	case *schematic.Extra:
		*x = schematic.Extra{"more": []byte("1")}
	case **schematic.Housing:
		*x = &schematic.Housing{Type: "round"}
	default:
		switch f.Kind() {
		case reflect.String:
			f.SetString(f.String() + "x")
		case reflect.Int:
			f.SetInt(f.Int() + 3)
		case reflect.Bool:
			f.SetBool(!f.Bool())
		case reflect.Float64:
			f.SetFloat(f.Float() + 1)
		case reflect.Map:
			m := reflect.MakeMap(f.Type())
			m.SetMapIndex(reflect.ValueOf("other"), reflect.New(f.Type().Elem()).Elem())
			if f.Type().Elem().Kind() == reflect.String {
				m.SetMapIndex(reflect.ValueOf("other"), reflect.ValueOf("x").Convert(f.Type().Elem()))
			}
			f.Set(m)
		case reflect.Slice:
			s := reflect.MakeSlice(f.Type(), f.Len()+1, f.Len()+1)
			reflect.Copy(s, f)
			if last := s.Index(f.Len()); last.Kind() == reflect.String {
				last.SetString("x")
			}
			f.Set(s)
		default:
			return false
		}
	}
	return true
}

// Lines as a builder would say them.
func TestDifferencesInOneLine(t *testing.T) {
	base := twoFuses(1)
	f1, _ := base.Named("F1")
	e1, _ := base.Named("E1")
	w1, _ := base.Named("W1")
	move := func(tx *Tx, id schematic.ID, by int) {
		tx.EditPart(id, func(p *schematic.Part) {
			v := p.Views[0]
			v.At.X += by
			p.Views = []schematic.View{v}
		})
	}
	for _, c := range []struct {
		why   string
		edit  func(*Tx)
		lines []string
		drawn string
	}{
		{"size and colour speak for themselves", func(tx *Tx) {
			tx.EditWire(w1.ID, func(w *schematic.Wire) {
				w.Size, w.Color, w.LengthMM = unit.MM2(2.5), schematic.Color{Base: "BU"}, schematic.Some(900)
			})
		}, []string{"W1: 1.5 mm² → 2.5 mm²; RD → BU; length not given → 900 mm"}, ""},
		{"but not where one is not given", func(tx *Tx) {
			tx.EditWire(w1.ID, func(w *schematic.Wire) { w.Size, w.Color = unit.Size{}, schematic.Color{} })
		}, []string{"W1: size 1.5 mm² → not given; colour RD → not given"}, ""},
		{"moved is no more than a word", func(tx *Tx) { move(tx, f1.ID, 25) }, []string{"F1 moved"}, "1 part only drawn elsewhere or another way"},
		{"moved parts take their wires along", func(tx *Tx) {
			move(tx, f1.ID, 25)
			move(tx, e1.ID, 25)
			tx.EditWire(w1.ID, func(w *schematic.Wire) { w.Via = []geom.Point{geom.Pt(150, 300)} })
		}, []string{"E1 moved", "F1 moved", "W1 drawn another way"}, "2 parts and 1 wire only drawn elsewhere or another way"},
		{"moved and another rating is a change", func(tx *Tx) {
			move(tx, f1.ID, 25)
			tx.EditPart(f1.ID, func(p *schematic.Part) { p.Values = map[string]float64{"rating_amp": 15} })
		}, []string{"F1: rating amp 10 A → 15 A; moved"}, ""},
		{"the label of a wire", func(tx *Tx) {
			tx.EditWire(w1.ID, func(w *schematic.Wire) { w.Tag = geom.Pt(5, 5) })
		}, []string{"W1 label moved"}, "1 wire only drawn elsewhere or another way"},
		{"another name", func(tx *Tx) { tx.EditPart(f1.ID, func(p *schematic.Part) { p.Name = "F9" }) },
			[]string{"F9: designation F1 → F9"}, ""},
		{"gone and new", func(tx *Tx) {
			tx.Delete(w1)
			tx.Put(&schematic.Wire{ID: tx.NewID(), Name: "W2", Sheet: tx.Doc().Sheets()[0].ID, A: schematic.End{Part: f1.ID, Pin: "1"}, B: schematic.End{At: geom.Pt(5, 5)}})
		}, []string{"W1 removed: F1 pin 2 to E1 pin 1, 1.5 mm², RD", "W2 added: F1 pin 1 to a loose end"}, ""},
		{"another pin", func(tx *Tx) { tx.EditWire(w1.ID, func(w *schematic.Wire) { w.B.Pin = "2" }) },
			[]string{"W1: end B E1 pin 1 → E1 pin 2"}, ""},
	} {
		tx := Begin(base, nil)
		c.edit(tx)
		all := Compare(base, tx.Doc())
		var lines []string
		for _, d := range all {
			lines = append(lines, d.String())
		}
		assert.Equal(t, c.lines, lines, c.why)
		assert.Equal(t, c.drawn, DrawnOnly(all), c.why)
	}
	assert.Equal(t, "the drawings are the same\n", Report(nil))
}
