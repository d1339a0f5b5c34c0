package draft

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

// throughFiles returns a kind as it comes back from a drawing, and checks that
// it comes back the same from the user's own library.
func throughFiles(t *testing.T, k *schematic.Kind) *schematic.Kind {
	t.Helper()
	lib := library(t)
	c := *k
	c.ID = schematic.ID{15: 7}
	d := schematic.New(lib).With(schematic.Put{Key: c.Key(), Item: &c})
	data, err := loomfile.Encode(d)
	require.NoError(t, err)
	back, err := loomfile.Read(bytes.NewReader(data), lib)
	require.NoError(t, err)
	got := *back.Kind(k.Name)
	got.ID = k.ID
	own, err := catalog.EncodeOwn(k)
	require.NoError(t, err)
	again, err := catalog.EncodeOwn(&got)
	require.NoError(t, err)
	assert.Equal(t, string(own), string(again))
	return &got
}

// A symbol falls into two pieces: coil and contact, each with its pins and
// strokes.
func TestASymbolFallsIntoPieces(t *testing.T) {
	d := New()
	d.Edit(func(k *schematic.Kind) { k.Title, k.Prefix = "Relay in two", "K" })
	require.NoError(t, d.AddPiece())
	assert.Equal(t, []Picture{{Piece: "piece 1"}, {Piece: "piece 2"}}, d.Pictures())
	assert.Equal(t, Picture{Piece: "piece 2"}, d.Shown(), "the new one is in hand")
	require.NoError(t, d.Sound(), "it has a frame to begin with")
	assert.Equal(t, "", d.Form(), "pieces are drawn stroke by stroke")
	require.NoError(t, d.RenamePiece("contact"))
	require.ErrorContains(t, d.RenamePiece("piece 1"), "already")
	require.ErrorContains(t, d.RenamePiece(""), "needs a name")
	s := d.Strokes()
	require.Equal(t, 1, s.Len(), "only its own strokes")
	d.AddStroke("circle")
	assert.Equal(t, "contact", s.Text(1, 8))
	require.NoError(t, d.Pins().Set(1, 5, "contact"))

	d.Show(Picture{Piece: "piece 1"})
	require.NoError(t, d.RenamePiece("coil"))
	n := s.Len()
	assert.Equal(t, "coil", d.Kind().Pins[0].Section, "its pins follow")
	require.NoError(t, s.Set(0, 8, "contact"))
	assert.Equal(t, n-1, s.Len())
	require.ErrorContains(t, s.Set(0, 8, "lid"), "no piece")
	assert.Len(t, d.Kind().Sections[1].Shapes, 3, "a stroke goes over to the other piece")
	require.ErrorContains(t, d.RemovePiece(), "pin 1 stands in the piece \"coil\"")
	require.NoError(t, d.Sound())

	k := d.Kind()
	k.Name = "relay-in-two"
	assert.Equal(t, k, throughFiles(t, k))
	one := d.Preview(Picture{Piece: "contact"})
	require.Len(t, one.Sections, 1)
	assert.Equal(t, []string{"2"}, []string{one.Pins[0].Name})

	e := Of(k, false)
	e.Show(Picture{Piece: "coil"})
	require.NoError(t, e.RenamePiece("winding"))
	assert.Equal(t, map[string]string{"coil": "winding"}, e.RenamedPieces())
	assert.Empty(t, Of(k, true).RenamedPieces())
	require.NoError(t, e.Pins().Set(0, 5, "contact"))
	require.NoError(t, e.RemovePiece())
	require.ErrorContains(t, e.RemovePiece(), "only this piece")
	assert.Equal(t, Picture{Piece: "contact"}, e.Shown())
	require.NoError(t, e.Pins().Set(0, 3, "-10 -10"))
	require.NoError(t, e.Sound())
	require.ErrorContains(t, Of(library(t).Kind("connector-plug"), true).AddPiece(), "own pins")
}

// What stands at the pins of a role is drawn like the symbol.
func TestStrokesStandAtThePinsOfARole(t *testing.T) {
	lib := library(t)
	block := lib.Kind("fuse-block-regular")
	d := Of(block, true)
	feed := Picture{Role: "feed"}
	require.Contains(t, d.Pictures(), feed)
	d.Show(feed)
	feedRole, _ := block.Role("feed")
	s := d.Strokes()
	require.Equal(t, len(feedRole.Shapes), s.Len())
	require.NoError(t, s.Set(0, 7, "bold"))
	d.AddStroke("line")
	require.NoError(t, s.Set(s.Len()-1, 1, "0 0, 5 0"))
	require.ErrorContains(t, s.Set(0, 8, "lid"), "in no piece")
	require.ErrorContains(t, d.RenamePiece("x"), "see Roles")
	require.ErrorContains(t, d.RemovePiece(), "with the role")
	require.NoError(t, d.Sound())
	k := d.Kind()
	role, _ := k.Role("feed")
	require.Len(t, role.Shapes, len(feedRole.Shapes)+1)
	assert.Equal(t, []geom.Point{{}, {X: 50}}, role.Shapes[len(role.Shapes)-1].Points)
	again, _ := throughFiles(t, k).Role("feed")
	assert.Equal(t, role.Shapes, again.Shapes)
	p := d.Preview(feed)
	assert.Len(t, p.Pins, 1)
	assert.Len(t, p.Sections[0].Shapes, len(role.Shapes)+2, "with the edge of the box and the pin")

	roles := d.Roles()
	for i := range roles.Len() {
		if roles.Text(i, 0) == "feed" {
			require.NoError(t, roles.Set(i, 0, "supply rail"))
			assert.Equal(t, Picture{Role: "supply-rail"}, d.Shown(), "a renamed role stays in hand")
			roles.Remove(i)
			break
		}
	}
	assert.Equal(t, Picture{}, d.Shown(), "the symbol where the role is gone")
	require.ErrorContains(t, d.Strokes().Set(0, 0, "x"), "no such cell")
}

func TestTheOtherHalfAndTheFamilyAreKept(t *testing.T) {
	lib := library(t)
	d := Of(lib.Kind("connector-plug"), true)
	assert.Equal(t, "connector-receptacle", d.Kind().OtherHalf, "a copy has a half to go with it")
	d.Edit(func(k *schematic.Kind) { k.OtherHalf = "connector-header" })
	assert.Equal(t, "connector-header", throughFiles(t, d.Kind()).OtherHalf)
	for _, name := range lib.Names() {
		if f := lib.Kind(name).Family; f != "" {
			assert.Contains(t, catalog.Families(), f, name)
		}
	}
	f := Of(lib.Kind("fuse-mini"), true)
	f.Edit(func(k *schematic.Kind) { k.Family = "maxi blade" })
	assert.Equal(t, "maxi blade", throughFiles(t, f.Kind()).Family)
}

// Problems with strokes say where they are as the form shows it.
func TestProblemsWithStrokesNameTheirPicture(t *testing.T) {
	d := Of(library(t).Kind("relay-make-apart"), true)
	d.Edit(func(k *schematic.Kind) { k.Sections[1].Shapes[0].Type = "blob" })
	require.ErrorContains(t, d.Sound(), `stroke 1 of the piece "contact": `)
	e := Of(library(t).Kind("fuse-block-mini"), true)
	e.Edit(func(k *schematic.Kind) { k.Roles[0].Shapes[1].Points = nil })
	require.ErrorContains(t, e.Sound(), "stroke 2 of what stands at pins of role "+e.Kind().Roles[0].Name+": ")
}
