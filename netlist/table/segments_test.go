package table

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

func TestSegmentsSayWhatRunsThroughThem(t *testing.T) {
	d := load(t, fan)
	tab := Segments(Facts{Doc: d})
	n := 0
	for l := range d.Looms() {
		n += len(l.Segments)
	}
	require.Len(t, tab.Rows, n)
	require.NotZero(t, n)
	for _, r := range tab.Rows {
		loom, seg := SegmentOf(r)
		s, ok := d.Loom(loom).Segment(seg)
		require.True(t, ok)
		want := 0
		for w := range d.Wires() {
			for _, id := range w.Route {
				if w.Loom == loom && id == s.ID {
					want++
				}
			}
		}
		assert.Len(t, tab.Keys(r), want, tab.NameOf(r))
		v, _ := tab.Columns[tab.At("count")].value(tab, r)
		assert.Equal(t, float64(want), v)
	}
	// The rows of a selected wire are the segments of its route.
	for w := range d.Wires() {
		rows := tab.Arrange(View{Only: map[schematic.Key]bool{w.Key(): true}})
		assert.Len(t, rows, len(w.Route), w.Name)
	}
	assert.Len(t, tab.Arrange(View{Sheet: d.Sheets()[0].ID}), n)
}

func TestTypingIntoASegment(t *testing.T) {
	for _, c := range []struct{ col, text, want, err string }{
		{"length", "1,5 m", "1500 mm", ""}, {"length", "far", "", "cannot read"}, {"ambient", "85 °C", "85 °C", ""}, {"ambient", "", "", ""},
		{"sleeve", "braid", "braid", ""}, {"segment", "trunk", "trunk", ""}, {"from", "firewall", "firewall", ""}, {"loom", "bay", "bay", ""}, {"count", "3", "", "follows from the drawing"},
	} {
		s := session(t, load(t, fan))
		tab := Segments(Facts{Doc: s.Doc()})
		r := tab.Rows[0]
		f, err := tab.Edit(r, tab.At(c.col), c.text)
		if c.err != "" {
			require.ErrorContains(t, err, c.err)
			continue
		}
		require.NoError(t, err, c.col)
		if f != nil {
			require.NoError(t, s.Do("edit", f))
		}
		after := Segments(Facts{Doc: s.Doc()})
		assert.Equal(t, c.want, after.Text(r, after.At(c.col)), c.col)
	}
}

func TestReadingsBesideWhatIsComputed(t *testing.T) {
	d := load(t, fan)
	f := facts(d, "Fan on")
	k, ok := d.Named("G1")
	require.True(t, ok)
	plus := schematic.PinRef{Part: k.ID, Pin: "+"}
	s := session(t, d)
	require.NoError(t, s.Do("add", func(tx *edit.Tx) error {
		return edit.AddReading(tx, schematic.Reading{Date: "2026-03-01", Quantity: "volt", From: plus, State: f.Solution.State.ID, Value: 12.3})
	}))
	f.Doc = s.Doc()
	tab := Readings(f)
	require.Len(t, tab.Rows, 1)
	r := tab.Rows[0]
	want, ok := f.Solution.VoltAt(f.Solution.Netlist.NodeOf(plus))
	require.True(t, ok)
	v, known := tab.Columns[tab.At("difference")].value(tab, r)
	require.True(t, known)
	assert.InDelta(t, max(want-12.3, 12.3-want), v, 1e-9)
	assert.Equal(t, "12.3 V", tab.Text(r, tab.At("value")))
	assert.Equal(t, "G1.+", tab.Text(r, tab.At("from")))
	assert.Equal(t, []schematic.Key{k}, tab.Keys(r))
	other := facts(d, "")
	other.Doc = s.Doc()
	assert.Empty(t, Readings(other).Text(r, tab.At("expected")), "it counts in its own operating state only")

	for _, c := range []struct{ col, text, err string }{
		{"value", "12.6 V", ""}, {"value", "x", "cannot read"}, {"to", "G1.-", ""}, {"to", "", ""}, {"from", "", "say at which pin"},
		{"quantity", "smell", "cannot be measured"}, {"state", "Switched off", ""}, {"state", "nowhere", "no operating state"}, {"date", "", "needs a date"}, {"notes", "cheap meter", ""},
	} {
		tab = Readings(Facts{Doc: s.Doc()})
		change, err := tab.Edit(r, tab.At(c.col), c.text)
		if err == nil && change != nil {
			err = s.Do("edit", change)
		}
		if c.err == "" {
			require.NoError(t, err, c.col)
			assert.Equal(t, c.text, Readings(Facts{Doc: s.Doc()}).Text(r, tab.At(c.col)))
			continue
		}
		require.ErrorContains(t, err, c.err)
	}
}

// TestReadingOfCurrentAtASplice: by Kirchhoff's current law what the
// wires of a splice carry adds up to nothing; what passes through it is what
// flows in, which no more leaves than comes.
func TestReadingOfCurrentAtASplice(t *testing.T) {
	d := load(t, fan)
	k, ok := d.Named("SP1")
	require.True(t, ok)
	state := d.States()[1]
	f := facts(d, state.Name)
	at := schematic.PinRef{Part: k.ID, Pin: d.KindOf(d.Part(k.ID)).Pins[0].Name}
	s := session(t, d)
	require.NoError(t, s.Do("add", func(tx *edit.Tx) error {
		return edit.AddReading(tx, schematic.Reading{Date: "2026-03-01", Quantity: "amp", From: at, State: state.ID, Value: 9})
	}))
	f.Doc = s.Doc()
	tab := Readings(f)
	into, out := 0.0, 0.0
	for w := range f.Doc.Wires() {
		amp, known := f.Solution.WireAmp(w.ID)
		require.True(t, known)
		switch k.ID {
		case w.B.Part:
			into, out = into+max(0, amp), out+max(0, -amp)
		case w.A.Part:
			into, out = into+max(0, -amp), out+max(0, amp)
		}
	}
	require.Greater(t, into, 1.0)
	got, known := tab.Columns[tab.At("expected")].value(tab, tab.Rows[0])
	require.True(t, known)
	assert.InDelta(t, into, got, 1e-6)
	assert.InDelta(t, out, got, 1e-6)
	assert.Contains(t, tab.Text(tab.Rows[0], tab.At("expected")), " A through")
}

func TestHolesReadWhatTheySay(t *testing.T) {
	holes := []schematic.Hole{{Name: "firewall", DiameterMM: schematic.Some(22), Grommet: "rubber, 22", FromMM: schematic.Some(300)}, {Name: "tray"}}
	for _, units := range []unit.System{unit.SI, unit.Imperial} {
		got, err := ReadHoles(append(HoleLines(schematic.Segment{Holes: holes}, units), HoleLine{}))
		require.NoError(t, err)
		require.Len(t, got, 2, "an empty line is none")
		assert.InDelta(t, 22, got[0].DiameterMM.Or(0), 0.3, "as far as inches are written")
		assert.Equal(t, holes[1], got[1])
	}
	_, err := ReadHoles([]HoleLine{{Diameter: "22 mm"}})
	require.ErrorContains(t, err, "line 1: name the panel")
	_, err = ReadHoles([]HoleLine{{Name: "x", From: "far"}})
	require.ErrorContains(t, err, "line 1: from the beginning")
	require.Error(t, CheckHoleField(1, "wide"))
	require.NoError(t, CheckHoleField(2, "wide"))
	require.NoError(t, CheckHoleField(1, " "))
}
