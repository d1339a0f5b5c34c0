package draft

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
)

func lists(d *Draft) map[string]*List {
	return map[string]*List{"pins": d.Pins(), "strokes": d.Strokes(), "values": d.Values(), "elements": d.Elements(), "roles": d.Roles()}
}

func library(t testing.TB) *schematic.Library {
	lib, err := catalog.Default()
	require.NoError(t, err)
	return lib
}

// What every cell of every kind of the program says can be typed in again, and
// changes nothing.
func TestCellsReadWhatTheySay(t *testing.T) {
	lib := library(t)
	for _, name := range lib.Names() {
		d := Of(lib.Kind(name), false)
		for _, p := range d.Pictures() {
			d.Show(p)
			l := d.Strokes()
			for line := range l.Len() {
				for col := range l.Columns {
					if text := l.Text(line, col); l.Set(line, col, text) != nil {
						require.Empty(t, text, "%s, %s, line %d", name, p.Title(), line)
					}
				}
			}
		}
		for what, l := range lists(d) {
			for line := range l.Len() {
				for col := range l.Columns {
					text := l.Text(line, col)
					if err := l.Set(line, col, text); err != nil {
						// Cells that have nothing to say in a line refuse any text, also none.
						require.Empty(t, text, "%s: %s, line %d, %s: %v", name, what, line, l.Columns[col].Title, err)
					}
				}
			}
		}
		require.Equal(t, lib.Kind(name), d.Kind(), name)
		require.NoError(t, d.Sound(), name)
	}
}

// A draft is its own: nothing done to it reaches the kind it began with.
func TestADraftSharesNothing(t *testing.T) {
	lib := library(t)
	k := lib.Kind("relay-change-over")
	data, err := catalog.EncodeOwn(k)
	require.NoError(t, err)
	d := Of(k, true)
	for _, l := range lists(d) {
		l.Add()
		for line := range l.Len() {
			for col := range l.Columns {
				for _, text := range []string{"x1", "2 3", "right", "line", "V", "5", "contact", "30", "ohm = 7", "on"} {
					_ = l.Set(line, col, text) // what it takes and refuses is no matter here
				}
			}
		}
		l.Move(0, 1)
		l.Remove(0)
	}
	again, err := catalog.EncodeOwn(k)
	require.NoError(t, err)
	assert.Equal(t, string(data), string(again))
}

func set(t *testing.T, l *List, line int, texts ...string) {
	t.Helper()
	for line >= l.Len() {
		l.Add()
	}
	for col, text := range texts {
		if text != "" {
			require.NoError(t, l.Set(line, col, text), "%d %q", col, text)
		}
	}
}

// A relay made from nothing: pins by DIN 72552, a coil and a contact.
func TestAKindIsMadeFromNothing(t *testing.T) {
	d := New()
	d.Edit(func(k *schematic.Kind) { k.Title, k.Prefix = "Relay, small", "K" })
	pins := d.Pins()
	set(t, pins, 0, "86", "coil", "left")
	set(t, pins, 1, "85", "coil", "left")
	set(t, pins, 2, "30", "common", "right")
	set(t, pins, 3, "87", "make", "r")
	el := d.Elements()
	set(t, el, 0, "coil", "coil", "86", "85", "", "coil")
	set(t, el, 1, "contact", "contact", "30", "87", "", "", "coil", "open")
	values := d.Values()
	assert.Equal(t, []string{"ohm", "pull_in_volt", "drop_out_volt"}, []string{values.Text(0, 0), values.Text(1, 0), values.Text(2, 0)}, "what the types need is added")
	set(t, values, 0, "coil_ohm", "coil resistance", "", "90", "data sheet")
	assert.Contains(t, el.Text(0, 4), "ohm = coil_ohm", "elements follow a renamed value")
	require.NoError(t, el.Set(1, 4, "ohm = 0.004"))
	require.NoError(t, d.Sound())
	require.NoError(t, el.Set(1, 1, "lamp"))
	require.NoError(t, el.Set(1, 1, "contact"))
	require.NoError(t, el.Set(1, 6, "coil"))
	require.NoError(t, el.Set(1, 4, "ohm = 0.004"))
	require.NoError(t, d.Sound(), "values an element no longer needs go with it")
	k := d.Kind()
	assert.Equal(t, "relay-small", k.Name)
	assert.Equal(t, "coil", k.Elements[1].Coil)
	assert.Equal(t, schematic.Some(90), k.Params[0].Default)

	require.NoError(t, pins.Set(0, 0, "1"))
	assert.Equal(t, "1", d.Kind().Elements[0].A, "elements follow a renamed pin")
	pins.Remove(0)
	err := d.Sound()
	require.ErrorContains(t, err, "element coil: \"1\" is neither a pin")
}

func TestASwitchGetsItsPositions(t *testing.T) {
	d := New()
	el := d.Elements()
	set(t, el, 0, "contact", "contact", "1", "2", "", "", "low, high")
	assert.Equal(t, []string{"off", "low", "high"}, d.Kind().Positions)
	assert.Equal(t, "low, high", el.Text(0, 6))
}

func TestTheBoxBecomesStrokes(t *testing.T) {
	d := New()
	d.Edit(func(k *schematic.Kind) { k.Title = "Buzzer" })
	require.True(t, d.Form() == "box")
	require.NoError(t, d.Sound(), "a box needs no places for its pins")
	require.Error(t, d.Pins().Set(0, 3, "0 0"))
	doc := func() (*schematic.Doc, *schematic.Part) {
		k := d.Kind()
		return schematic.New(schematic.NewLibrary(k)), &schematic.Part{Kind: k.Name}
	}
	doc1, p1 := doc()
	want := doc1.LocalPins(p1, "")
	require.NoError(t, d.SetForm(""))
	require.NoError(t, d.Sound())
	doc2, p2 := doc()
	got := doc2.LocalPins(p2, "")
	require.Len(t, got, len(want))
	for i := range want {
		assert.Equal(t, want[i].At, got[i].At, "pins stay where the box had them")
		assert.Equal(t, want[i].Dir, got[i].Dir)
	}
	require.NoError(t, d.Pins().Set(0, 3, "-12.5 5"))
	assert.Equal(t, geom.Pt(-125, 50), d.Kind().Pins[0].At)
	require.NoError(t, d.SetForm("box"))
	assert.Equal(t, schematic.Dir("left"), d.Kind().Pins[0].Side)
	require.NoError(t, d.Sound())
	assert.Error(t, Of(library(t).Kind("connector-plug"), true).SetForm(""))
}

func TestStrokes(t *testing.T) {
	d := New()
	require.NoError(t, d.SetForm(""))
	s := d.Strokes()
	n := s.Len()
	for _, shape := range Shapes() {
		d.AddStroke(shape)
	}
	for i, shape := range Shapes() {
		assert.Equal(t, shape, s.Text(n+i, 0))
	}
	d.Edit(func(k *schematic.Kind) { k.Title = "X" })
	require.NoError(t, d.Sound(), "every shape is sound as it is added")
	require.NoError(t, s.Set(n+3, 3, "90, -45.5"))
	assert.Equal(t, -45.5, d.Kind().Sections[0].Shapes[n+3].Sweep)
	require.NoError(t, s.Set(n, 1, "0 -7.5, 0 -2.5, 2.5 0"))
	assert.Equal(t, []geom.Point{{X: 0, Y: -75}, {X: 0, Y: -25}, {X: 25, Y: 0}}, d.Kind().Sections[0].Shapes[n].Points)
	for _, bad := range []struct {
		line, col int
		text, err string
	}{
		{n, 0, "blob", "not a shape"}, {n, 1, "1 2", "it takes 2 to 200"}, {n, 1, "a b, 1 2", "not a number"}, {n, 1, "1, 2", "not a point"},
		{n, 2, "5", "has no radius"}, {n, 3, "1, 2", "only an arc"}, {n, 6, "solid", "cannot be filled"}, {n + 2, 2, "-1", "millimetres"},
		{n + 3, 3, "10", "degrees"}, {n + 2, 6, "green", "not a fill"}, {n, 7, "fat", "not a weight"}, {n, 1, "NaN 0, 0 0", "not a number"}, {n + 2, 2, "NaN", "millimetres"},
	} {
		require.ErrorContains(t, s.Set(bad.line, bad.col, bad.text), bad.err, "%v", bad)
	}
	require.NoError(t, s.Set(n, 7, "bold dashed"))
	assert.Equal(t, "bold dashed", s.Text(n, 7))
}

func TestProblemsAreInPlainWords(t *testing.T) {
	d := New()
	d.Edit(func(k *schematic.Kind) { k.Title, k.Prefix = "X", "x1" })
	set(t, d.Elements(), 0, "lamp", "lamp", "1", "2")
	var all []string
	for _, p := range d.Problems() {
		all = append(all, p.Text)
		assert.False(t, strings.ContainsAny(strings.SplitN(p.Text, ":", 2)[0], "[]."), p.Text)
	}
	text := strings.Join(all, "\n")
	assert.Contains(t, text, "letters: \"x1\": write capital letters")
	assert.Contains(t, text, "element lamp: lamp is a load")
	require.Error(t, New().Sound(), "a kind needs a title")
}

func FuzzCells(f *testing.F) {
	f.Add(0, 1, 3, "ohm = 3")
	f.Fuzz(func(t *testing.T, which, line, col int, text string) {
		d := Of(library(t).Kind([]string{"relay-change-over", "control-unit"}[line&1]), true)
		l := []*List{d.Pins(), d.Strokes(), d.Values(), d.Elements(), d.Roles()}[((which%5)+5)%5]
		if err := l.Set(line, col, text); err == nil {
			_ = l.Text(line, col)
		}
		_ = d.Problems()
	})
}

// What reads as a number but is none is refused: the document could not hold it.
func TestASweepIsANumberOfDegrees(t *testing.T) {
	d := Draft{}
	d.AddStroke("arc")
	for _, bad := range []string{"NaN, 90", "0, NaN", "Inf, 90", "0, -Inf", "0, 0", "0, 361", "90"} {
		assert.ErrorContains(t, setStroke(&d.k.Sections[0].Shapes[0], 3, bad), "180, 90", bad)
	}
	require.NoError(t, setStroke(&d.k.Sections[0].Shapes[0], 3, "180, -90"))
	assert.Equal(t, -90.0, d.k.Sections[0].Shapes[0].Sweep)
}
