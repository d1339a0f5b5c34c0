package table

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

func TestPinTablesComeFromSpreadsheets(t *testing.T) {
	for _, c := range []struct {
		why  string
		text string
		want []PinLine
	}{
		{"titles in any order, with columns nobody asked for", "Function\tPin\tPrice\tColour\tmm²\tTo\nsupply\tA1\t3\tred\t1,5\tF1.2\nground\tA2\t4\tBN\t1\t\n",
			[]PinLine{{Cavity: "A1", Name: "supply", Color: "red", Size: "1,5 mm²", GoesTo: "F1.2"}, {Cavity: "A2", Name: "ground", Color: "BN", Size: "1 mm²"}}},
		{"gauges", "Pin,AWG,Use\n1,18,left lamp\n2,4/0,right lamp\n",
			[]PinLine{{Cavity: "1", Size: "AWG 18", Name: "left lamp"}, {Cavity: "2", Size: "AWG 4/0", Name: "right lamp"}}},
		{"no titles: from the cell in hand on", "1\tsupply\tRD\n2\tground\tBN\n",
			[]PinLine{{Cavity: "1", Name: "supply", Color: "RD"}, {Cavity: "2", Name: "ground", Color: "BN"}}},
		{"one title alone", "Function\nlamp\nhorn\n", []PinLine{{Cavity: "1", Name: "lamp"}, {Cavity: "2", Name: "horn"}}},
	} {
		block, err := Block(c.text)
		require.NoError(t, err)
		got, err := PastePins(nil, block, 0, 0)
		require.NoError(t, err, c.why)
		assert.Equal(t, c.want, got, c.why)
	}
	lines := NewPinLines(3)
	block, err := Block("x\ty\nz\n")
	require.NoError(t, err)
	got, err := PastePins(lines, block, 2, 1)
	require.NoError(t, err)
	assert.Equal(t, []PinLine{{Cavity: "1"}, {Cavity: "2"}, {Cavity: "3", Name: "x", Color: "y"}, {Cavity: "4", Name: "z"}}, got, "the table grows")
	_, err = PastePins(lines, block, 0, 4)
	require.ErrorContains(t, err, "last column")
	_, err = PastePins(lines, nil, 0, 0)
	require.Error(t, err)
	_, err = PastePins(lines, make([][]string, maxPins+1), 0, 0)
	require.Error(t, err)
}

func TestResizeKeepsWhatIsInUse(t *testing.T) {
	lines, err := Resize(NewPinLines(2), 4)
	require.NoError(t, err)
	assert.Equal(t, NewPinLines(4), lines)
	lines[3].Name = "horn"
	_, err = Resize(lines, 3)
	require.ErrorContains(t, err, "cavity 4 is in use")
	_, err = Resize(lines, 0)
	require.Error(t, err)
	_, err = Resize(lines, maxPins+1)
	require.Error(t, err)
}

func TestColoursByCodeOrName(t *testing.T) {
	for in, want := range map[string]string{"RD": "RD", "bu/wh": "BU/WH", "red": "RD", "Blue / White": "BU/WH", "green-yellow": "GN/YE", "grey red": "GY/RD", "": ""} {
		c, err := ColorNamed(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, c.String(), in)
	}
	for _, in := range []string{"mauve", "red/mauve", "red green blue", "/"} {
		_, err := ColorNamed(in)
		require.Error(t, err, in)
	}
}

// shelf is a sheet with a fuse and a lamp to wire to.
func shelf(t *testing.T) *edit.Session {
	lib, err := catalog.Default()
	require.NoError(t, err)
	tx := edit.Begin(schematic.New(lib), nil)
	require.NoError(t, edit.AddSheet(tx, "1"))
	sheet := tx.Doc().Sheets()[0].ID
	for i, kind := range []string{"fuse-mini", "lamp"} {
		require.NoError(t, edit.PlacePart(tx, kind, sheet, geom.Pt(2000+500*i, 1000), geom.Orient{}))
	}
	return session(t, tx.Doc())
}

func makeConnector(s *edit.Session, kind string, lines []PinLine) error {
	rows, err := Cavities(s.Doc(), lines)
	if err != nil {
		return err
	}
	return s.Do("make", func(tx *edit.Tx) error {
		return edit.MakeConnector(tx, edit.Connector{Kind: kind, Label: "lamps", Housing: &schematic.Housing{Gender: "socket", Sealed: true}, Rows: rows}, tx.Doc().Sheets()[0].ID, geom.Pt(1000, 1000))
	})
}

func TestAConnectorIsMadeWithItsWires(t *testing.T) {
	s := shelf(t)
	require.NoError(t, makeConnector(s, "connector-plug", []PinLine{
		{Cavity: "A", Name: "supply", Color: "red", Size: "1.5", GoesTo: "F1.2"},
		{Cavity: "B", Color: "BN", Size: "AWG 16"},
		{Cavity: "C", GoesTo: "loose"},
		{Cavity: "D", Name: "spare"},
	}))
	lines := PinLinesOf(s.Doc(), s.Selection()[0].ID)
	require.Len(t, lines, 4)
	for i, want := range []PinLine{
		{Cavity: "A", Name: "supply", Color: "RD", Size: "1.5 mm²", GoesTo: "F1.2"},
		{Cavity: "B", Color: "BN", Size: "AWG 16", GoesTo: "loose"},
		{Cavity: "C", GoesTo: "loose"},
		{Cavity: "D", Name: "spare"},
	} {
		for f := range PinFields() {
			assert.Equal(t, *want.Field(f), *lines[i].Field(f), "%s, %s", want.Cavity, PinFields()[f])
		}
	}
	p := s.Doc().Part(s.Selection()[0].ID)
	assert.Equal(t, "lamps", p.Label)
	assert.True(t, p.Housing.Sealed)
	require.Len(t, s.Selection(), 2, "the other half came along")
	other := s.Doc().Part(s.Selection()[1].ID)
	assert.Equal(t, p.ID, other.Mate)
	assert.Len(t, other.Pins, 4)
	assert.Equal(t, "D", other.Pins[3].Name)

	// A second one stands beside the first.
	require.NoError(t, makeConnector(s, "connector-header", NewPinLines(2)))
	q := s.Doc().Part(s.Selection()[0].ID)
	assert.NotEqual(t, p.Views[0].At, q.Views[0].At)
	assert.False(t, s.Doc().Reach(p, p.Views[0]).Touches(s.Doc().Reach(q, q.Views[0])))

	for _, bad := range []struct{ line, err string }{
		{"X9.1", "cavity 1: \"X9.1\" names no pin"},
	} {
		require.ErrorContains(t, makeConnector(s, "connector-plug", []PinLine{{Cavity: "1", GoesTo: bad.line}}), bad.err)
	}
	require.ErrorContains(t, makeConnector(s, "connector-plug", []PinLine{{Cavity: "1", Size: "18"}}), "cavity 1: \"18\" is not clear as a conductor size")
	require.ErrorContains(t, makeConnector(s, "connector-plug", []PinLine{{Cavity: "1"}, {Cavity: "1"}}), "two cavities 1")
	require.ErrorContains(t, makeConnector(s, "connector-plug", nil), "at least one cavity")
}

func TestAPinTableIsEdited(t *testing.T) {
	s := shelf(t)
	require.NoError(t, makeConnector(s, "connector-plug", []PinLine{
		{Cavity: "1", Color: "RD", Size: "1.5", GoesTo: "F1.2"}, {Cavity: "2", Color: "BN"}, {Cavity: "3"}, {Cavity: "4"}}))
	id := s.Selection()[0].ID
	set := func(change func([]PinLine) []PinLine) error {
		rows, err := Cavities(s.Doc(), change(PinLinesOf(s.Doc(), id)))
		if err != nil {
			return err
		}
		return s.Do("edit", func(tx *edit.Tx) error { return edit.SetPinout(tx, id, rows) })
	}
	before := s.Doc()
	require.NoError(t, set(func(l []PinLine) []PinLine { return l }))
	require.Same(t, before, s.Doc(), "nothing typed, nothing changed")

	// Two cavities swap their names, one is added, one goes, one wire is led elsewhere.
	require.NoError(t, set(func(l []PinLine) []PinLine {
		l[0].Cavity, l[1].Cavity = "2", "1"
		l[1].Color, l[1].GoesTo = "BU/WH", "E1.1"
		return append(l[:3], PinLine{Cavity: "5", GoesTo: "E1.2"})
	}))
	got := PinLinesOf(s.Doc(), id)
	for i, want := range []PinLine{
		{Cavity: "2", Color: "RD", Size: "1.5 mm²", GoesTo: "F1.2"}, {Cavity: "1", Color: "BU/WH", GoesTo: "E1.1"}, {Cavity: "3"}, {Cavity: "5", GoesTo: "E1.2"}} {
		for f := range PinFields() {
			assert.Equal(t, *want.Field(f), *got[i].Field(f), "%s, %s", want.Cavity, PinFields()[f])
		}
	}
	mate := s.Doc().Part(s.Doc().Part(id).Mate)
	assert.Equal(t, []string{"2", "1", "3", "5"}, []string{mate.Pins[0].Name, mate.Pins[1].Name, mate.Pins[2].Name, mate.Pins[3].Name}, "the other half is kept in step")
	require.ErrorContains(t, set(func(l []PinLine) []PinLine { return l[1:] }), "pin 2 still has W1")

	// The name of a cavity that goes is free for another.
	require.NoError(t, set(func(l []PinLine) []PinLine {
		l[3].Cavity = "3"
		return append(l[:2], l[3])
	}))
	got = PinLinesOf(s.Doc(), id)
	require.Len(t, got, 3)
	assert.Equal(t, "E1.2", got[2].GoesTo)
}
