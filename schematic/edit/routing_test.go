package edit_test

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/export"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
	"loomwright/schematic/sample/cases"
)

var (
	update   = flag.Bool("update", false, "write the ways the wires take now")
	pictures = flag.String("pictures", "", "write a picture of every routing case to this folder")
)

// TestRoutingCases draws the sheets of testdata/routing as a hand would, one
// wire after the other, and compares the ways of the wires. Whatever they are,
// they obey the laws of [lawsOfWires].
//
// Section sheet has a line for each part: "A1 box 10,10 left=4 right=2 turn=1
// mirror", in grid steps; section steps what is done then: "wire A1.1 A2.3",
// "wire A1.1 @5,5", "via A1.1 A2.3 10,10 20,10" (a wire with bends made by
// hand), "wires A1.1-8 A2.8-1" (eight wires, one after the other; with "mixed" at
// the end in mixed order), "move A1 A2 5,0", "turn A1", "mirror A1",
// "put F1 5,0 W1", "tidy". Section limits, if any, says how many crossings and
// bends the sheet may have in all: what a person needs who draws it with care.
// Section want is written by -update and read by people.
func TestRoutingCases(t *testing.T) {
	files, err := filepath.Glob("testdata/routing/*.txtar")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 10)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".txtar")
		t.Run(name, func(t *testing.T) {
			text, err := cases.Read(file)
			require.NoError(t, err)
			c := playCase(t, text)
			got := c.text()
			require.Equal(t, got, playCase(t, text).text(), "the same steps give the same ways")
			if *pictures != "" {
				c.picture(t, filepath.Join(*pictures, name+".png"))
			}
			c.lawsOfWires(t)
			c.limits(t, text.Section("limits"))
			if *update {
				text.Set("want", got)
				require.NoError(t, text.Write())
				return
			}
			require.Equal(t, text.Section("want"), got)
		})
	}
}

// routingCase is a sheet under way.
type routingCase struct {
	t      *testing.T
	sess   *edit.Session
	sheet  schematic.ID
	lib    *schematic.Library
	byHand map[string]bool // wires with bends of their own, which may lie badly
}

func playCase(t *testing.T, text *cases.File) *routingCase {
	lib, err := catalog.Default()
	require.NoError(t, err)
	n := uint32(0)
	ids := func() (id schematic.ID) {
		n++
		binary.BigEndian.PutUint32(id[12:], n)
		return id
	}
	s := &schematic.Sheet{ID: ids(), Name: "one", Width: 80 * geom.Grid, Height: 76 * geom.Grid}
	if f := strings.Fields(text.Section("size")); len(f) == 2 {
		w, errW := strconv.Atoi(f[0])
		h, errH := strconv.Atoi(f[1])
		require.NoError(t, errors.Join(errW, errH))
		s.Width, s.Height = w*geom.Grid, h*geom.Grid
	}
	d := schematic.New(lib).With(schematic.Put{Key: s.Key(), Item: s})
	c := &routingCase{t: t, lib: lib, sheet: s.ID, sess: edit.NewSession(d, nil, ids), byHand: map[string]bool{}}
	for line := range strings.Lines(text.Section("sheet")) {
		if f := strings.Fields(line); len(f) > 0 {
			c.part(f)
		}
	}
	for line := range strings.Lines(text.Section("steps")) {
		for _, f := range single(t, strings.Fields(line)) {
			require.NoError(t, c.sess.Do("step", func(tx *edit.Tx) error { return c.step(tx, f) }), line)
		}
	}
	require.Empty(t, schematic.Check(c.sess.Doc()))
	return c
}

// part adds one part.
func (c *routingCase) part(f []string) {
	k := c.lib.Kind(f[1])
	require.NotNil(c.t, k, "part kind %s", f[1])
	p := catalog.New(k, f[0])
	v := schematic.View{Sheet: c.sheet, At: c.point(f[2])}
	counted := false
	for _, word := range f[3:] {
		key, value, _ := strings.Cut(word, "=")
		switch n, _ := strconv.Atoi(value); key {
		case "turn":
			v.Turns = n
		case "mirror":
			v.Mirror = true
		case "label":
			p.Label = strings.ReplaceAll(value, "_", " ")
		default:
			if !counted {
				p.Pins, counted = nil, true
			}
			for range n {
				p.Pins = append(p.Pins, schematic.Pin{Name: strconv.Itoa(len(p.Pins) + 1), Role: k.Roles[0].Name, Side: schematic.Dir(key), Section: k.Sections[0].Name})
			}
		}
	}
	v.Section = k.Sections[0].Name
	p.ID = schematic.ID{0: 1, 15: byte(c.sess.Doc().Len(schematic.TypePart))}
	p.Views = []schematic.View{v}
	require.NoError(c.t, c.sess.Do("part", func(tx *edit.Tx) error { tx.Put(p); return nil }))
}

func (c *routingCase) point(word string) geom.Point {
	x, y, ok := strings.Cut(word, ",")
	px, errX := strconv.Atoi(x)
	py, errY := strconv.Atoi(y)
	require.True(c.t, ok && errX == nil && errY == nil, "a place: %s", word)
	return geom.Pt(px*geom.Grid, py*geom.Grid)
}

func (c *routingCase) key(name string) schematic.Key {
	k, ok := c.sess.Doc().Named(name)
	require.True(c.t, ok, "nothing is called %s", name)
	return k
}

func (c *routingCase) anchor(word string) edit.Anchor {
	if place, loose := strings.CutPrefix(word, "@"); loose {
		return edit.Anchor{At: c.point(place)}
	}
	name, pin, _ := strings.Cut(word, ".")
	return edit.Anchor{Part: c.key(name).ID, Pin: pin}
}

func (c *routingCase) step(tx *edit.Tx, f []string) error {
	last := len(f) - 1
	keys := func(names []string) (all []schematic.Key) {
		for _, name := range names {
			all = append(all, c.key(name))
		}
		return all
	}
	switch f[0] {
	case "wire", "via":
		var via []geom.Point
		for _, word := range f[3:] {
			via = append(via, c.point(word))
		}
		if err := edit.AddWire(tx, c.sheet, c.anchor(f[1]), c.anchor(f[2]), via, nil); err != nil {
			return err
		}
		if f[0] == "via" {
			c.byHand[schematic.NameOf(tx.Doc().Get(tx.Selected()[0]))] = true
		}
		return nil
	case "move":
		return edit.Move(tx, c.sheet, keys(f[1:last]), c.point(f[last]))
	case "turn":
		return edit.Rotate(tx, c.sheet, keys(f[1:]), 1)
	case "mirror":
		return edit.Mirror(tx, c.sheet, keys(f[1:]))
	case "put":
		return edit.PutIntoWire(tx, c.sheet, keys(f[1:last-1]), c.point(f[last-1]), c.key(f[last]).ID)
	case "tidy":
		var ids []schematic.ID
		for w := range tx.Doc().Wires() {
			ids = append(ids, w.ID)
		}
		vias, err := route.Anew(context.Background(), tx.Doc(), c.sheet, ids, nil)
		if err != nil {
			return err
		}
		return edit.SetBends(tx, vias)
	}
	return fmt.Errorf("no step %q", f[0])
}

// wires returns the wires by designation.
func (c *routingCase) wires() (all []*schematic.Wire) {
	for w := range c.sess.Doc().Wires() {
		all = append(all, w)
	}
	slices.SortFunc(all, func(a, b *schematic.Wire) int { return schematic.CompareNames(a.Name, b.Name) })
	return all
}

// text lists the ways in grid steps.
func (c *routingCase) text() string {
	var out strings.Builder
	for _, w := range c.wires() {
		fmt.Fprint(&out, w.Name)
		for _, q := range c.sess.Doc().Path(w) {
			fmt.Fprintf(&out, " %g,%g", float64(q.X)/geom.Grid, float64(q.Y)/geom.Grid)
		}
		out.WriteString("\n")
	}
	return out.String()
}

// lawsOfWires checks what no wire may do that the program has led: leave the
// grid's directions, run through a part, double back, leave a pin another way
// than it faces, lie on a wire of another net or touch its bends, or pass over a
// pin of another net.
func (c *routingCase) lawsOfWires(t *testing.T) {
	d, all := c.sess.Doc(), c.wires()
	for _, w := range all {
		path := d.Path(w)
		require.True(t, path.Orthogonal(), "%s is askew", w.Name)
		require.Equal(t, path.Clean(), path, "%s doubles back or stops on its way", w.Name)
		for i, e := range []schematic.End{w.A, w.B} {
			_, dir, _ := d.EndAt(w, e)
			step := path[1].Sub(path[0])
			if i == 1 {
				step = path[len(path)-2].Sub(path[len(path)-1])
			}
			if dir != geom.NoDir && !c.byHand[w.Name] {
				require.Equal(t, dir, geom.DirOf(step), "%s leaves %s.%s another way than the pin faces: %v", w.Name, d.Part(e.Part).Name, e.Pin, path)
			}
		}
		if c.byHand[w.Name] {
			continue
		}
		for p := range d.Parts() {
			body := d.Body(p, p.Views[0])
			for i := 1; i < len(path); i++ {
				at := geom.RectOf(path[i-1], path[i])
				own := i == 1 && w.A.Part == p.ID || i == len(path)-1 && w.B.Part == p.ID
				if !own {
					require.False(t, body.Touches(at), "%s runs through %s: %v", w.Name, p.Name, path)
				}
			}
		}
		for _, other := range all {
			if other != w && !joined(d, w, other) && !c.byHand[other.Name] {
				apart(t, w.Name, other.Name, path, d.Path(other))
			}
		}
	}
}

// joined reports whether two wires end at one pin.
func joined(d *schematic.Doc, a, b *schematic.Wire) bool {
	for _, p := range []schematic.End{a.A, a.B} {
		for _, q := range []schematic.End{b.A, b.B} {
			if !p.Loose() && p.Ref() == q.Ref() {
				return true
			}
		}
	}
	return false
}

// apart checks that two paths meet in crossings alone.
func apart(t *testing.T, one, two string, p, q geom.Path) {
	for i := 1; i < len(p); i++ {
		for j := 1; j < len(q); j++ {
			a, b := geom.RectOf(p[i-1], p[i]), geom.RectOf(q[j-1], q[j])
			if !a.Touches(b) {
				continue
			}
			if (a.Min.Y == a.Max.Y) == (b.Min.Y == b.Max.Y) {
				t.Errorf("%s lies on %s: %v and %v", one, two, p, q)
				continue
			}
			cross := geom.Pt(max(a.Min.X, b.Min.X), max(a.Min.Y, b.Min.Y))
			if slices.Contains(p, cross) || slices.Contains(q, cross) {
				t.Errorf("%s touches a bend or end of %s at %v", one, two, cross)
			}
		}
	}
}

func (c *routingCase) picture(t *testing.T, file string) {
	list := draw.Sheet(c.sess.Doc(), c.sheet, draw.Options{})
	var out bytes.Buffer
	require.NoError(t, export.PNG(context.Background(), &out, list, export.PNGOptions{DPI: 130, Palette: export.Print()}))
	require.NoError(t, os.WriteFile(file, out.Bytes(), 0o644))
}
