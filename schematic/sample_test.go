package schematic

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic/geom"
)

// testID makes IDs that are easy to read in failures.
func testID(n int) (id ID) {
	id[0], id[14], id[15] = 0xaa, byte(n>>8), byte(n)
	return id
}

// The kinds of the sample: fixed pins, two sections, own pins.
var (
	fuseKind = &Kind{Name: "fuse", Prefix: "F", Pins: []Pin{{Name: "1", At: geom.Pt(0, -50), Dir: "up"}, {Name: "2", At: geom.Pt(0, 50), Dir: "down"}},
		Params: []Param{{Name: "amp", Unit: "A", Default: Some(10)}}, Sections: []Section{{}}}
	relayKind = &Kind{Name: "relay", Prefix: "K", Pins: []Pin{{Name: "86", Section: "coil", At: geom.Pt(0, -50)}, {Name: "85", Section: "coil", At: geom.Pt(0, 50)},
		{Name: "30", Section: "contact", At: geom.Pt(0, -50)}, {Name: "87", Section: "contact", At: geom.Pt(0, 50)}}, Sections: []Section{{Name: "coil"}, {Name: "contact"}}}
	plugKind = &Kind{Name: "plug", Prefix: "X", OwnPins: true, Roles: []Role{{Name: "cavity", Params: []Param{{Name: "ohm", Default: Some(0.005)}, {Name: "rated_amp"}}}},
		Params: []Param{{Name: "ohm", Default: Some(1)}, {Name: "volt", Default: Some(5)}}, Sections: []Section{{Form: "rows"}}}
)

// Items of the sample, each made anew so that a test may break them.
type sample struct {
	sheet, back *Sheet
	f1, f2, k1  *Part
	x1, x2      *Part
	w1, w2      *Wire
	twist       *Group
	loom        *Loom
	state       *State
	note        *Note
	reading     *Reading
	accepted    *Acceptance
	info        *Info
	own         *Kind
}

func newSample() *sample {
	s := &sample{}
	s.info = &Info{Title: "sample"}
	s.sheet, s.back = &Sheet{ID: testID(1), Name: "front", Order: 2}, &Sheet{ID: testID(2), Name: "back", Order: 1}
	view := func(x int) []View { return []View{{Sheet: s.sheet.ID, At: geom.Pt(x, 0)}} }
	s.f1 = &Part{ID: testID(10), Name: "F1", Kind: "fuse", Views: view(0), Values: map[string]float64{"amp": 5}}
	s.f2 = &Part{ID: testID(11), Name: "F2", Kind: "fuse", Views: view(500)}
	s.k1 = &Part{ID: testID(12), Name: "K1", Kind: "relay", Views: []View{{Key: "a", Sheet: s.sheet.ID, Section: "coil", At: geom.Pt(1000, 0)}, {Key: "b", Sheet: s.back.ID, Section: "contact"}}}
	s.x1 = &Part{ID: testID(13), Name: "X1", Kind: "plug", Mate: testID(14), Views: view(1500), Pins: []Pin{{Name: "1", Role: "cavity"}, {Name: "2", Role: "cavity"}}}
	s.x2 = &Part{ID: testID(14), Name: "X2", Kind: "plug", Mate: testID(13), Views: view(2000), Pins: []Pin{{Name: "1", Role: "cavity"}}}
	s.loom = &Loom{ID: testID(30), Name: "L1", Nodes: []Node{{ID: testID(31), Name: "a"}, {ID: testID(32), Name: "b"}}, Segments: []Segment{{ID: testID(33), From: testID(31), To: testID(32)}}}
	s.twist = &Group{ID: testID(20), Name: "T1", Type: TwistGroup}
	s.w1 = &Wire{ID: testID(40), Name: "W1", Sheet: s.sheet.ID, A: End{Part: s.f1.ID, Pin: "2"}, B: End{Part: s.f2.ID, Pin: "1"}, Twist: s.twist.ID, Loom: s.loom.ID, Route: []ID{testID(33)}}
	s.w2 = &Wire{ID: testID(41), Name: "W2", Sheet: s.sheet.ID, A: End{Part: s.f2.ID, Pin: "1"}, B: End{At: geom.Pt(900, 900)}}
	s.state = &State{ID: testID(50), Name: "on", Set: []Setting{{Part: s.k1.ID, Duty: Some(0.5)}}}
	s.note = &Note{ID: testID(51), Sheet: s.back.ID, Text: "first\nsecond"}
	s.reading = &Reading{ID: testID(52), Date: "2024-05-01", Quantity: "volt", From: PinRef{s.f1.ID, "1"}, State: s.state.ID}
	s.accepted = &Acceptance{ID: testID(53), Rule: "voltage drop", Items: []Subject{{Part: s.f1.ID}, {Wire: testID(99)}}, Value: Some(0.52), Unit: "V", Reason: "spare lamp", Date: "2024-05-01"}
	s.own = &Kind{ID: testID(60), Name: "own", Sections: []Section{{}}}
	return s
}

func (s *sample) doc() *Doc {
	var puts []Put
	for _, it := range []Item{s.info, s.sheet, s.back, s.f1, s.f2, s.k1, s.x1, s.x2, s.loom, s.twist, s.w1, s.w2, s.state, s.note, s.reading, s.accepted, s.own} {
		puts = append(puts, Put{it.Key(), it})
	}
	return New(NewLibrary(fuseKind, relayKind, plugKind)).With(puts...)
}

func TestSampleIsSound(t *testing.T) {
	require.Empty(t, problemTexts(newSample().doc()))
}

func problemTexts(d *Doc) []string {
	var out []string
	for _, p := range Check(d) {
		out = append(out, fmt.Sprintf("%s %s", strings.ToLower(p.At.Type.String()), p))
	}
	return out
}
