package schematic

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/geom"
)

// TestCheckFindsEachBreak breaks a sound document in one place at a time.
func TestCheckFindsEachBreak(t *testing.T) {
	none := testID(999)
	far := geom.Pt(geom.MaxCoord+1, 0)
	huge := Num{v: 1e10, known: true}
	for _, c := range []struct {
		name string
		do   func(*sample)
		want string
	}{
		{"part without a name", func(s *sample) { s.f1.Name = "" }, "part name: a part needs a designation"},
		{"wire without a name", func(s *sample) { s.w1.Name = "" }, "wire name: a wire needs a designation"},
		{"item without an ID", func(s *sample) { s.own.ID = ID{} }, "part kind id: the ID is missing"},
		{"designation twice", func(s *sample) { s.w1.Name = "F1" }, "wire name: designation F1 is used twice, also by part F1"},
		{"view on no sheet", func(s *sample) { s.f1.Views[0].Sheet = none }, "part views[0].sheet: lies on a sheet"},
		{"views with one key", func(s *sample) { s.k1.Views[1].Key = "a" }, `part views[1].key: K1 has two views with the key "a"`},
		{"five turns", func(s *sample) { s.f1.Views[0].Turns = 5 }, "part views[0].turns: 5 quarter turns"},
		{"negative turns", func(s *sample) { s.f1.Views[0].Turns = -1 }, "part views[0].turns: -1 quarter turns"},
		{"view far away", func(s *sample) { s.f2.Views[0].At = far }, "part views[0].at: 100001, 0 lies off any sheet"},
		{"tag far away", func(s *sample) { s.f2.Views[0].Tag = far }, "part views[0].tag: 100001, 0 lies off any sheet"},
		{"no such section", func(s *sample) { s.k1.Views[1].Section = "arm" }, `part views[1].section: part kind "relay" has no section "arm"`},
		{"pin without a name", func(s *sample) { s.x1.Pins[1].Name = "" }, "part pins[1].name: X1 needs a pin name"},
		{"pin twice", func(s *sample) { s.x1.Pins[1].Name = "1" }, "part pins[1].name: X1 needs a pin name"},
		{"pin of no role", func(s *sample) { s.x1.Pins[1].Role = "tap" }, `part pins[1].role: part kind "plug" has no pin role "tap": it has cavity`},
		{"pin on no side", func(s *sample) { s.x1.Pins[1].Side = "top" }, `part pins[1].side: "top" is not a direction`},
		{"pin value", func(s *sample) { s.x1.Pins[1].Values = map[string]float64{"ohm": math.NaN()} }, "part pins[1].values.ohm: NaN is out of range"},
		{"mate is gone", func(s *sample) { s.x1.Mate = none }, "part mate: the part "},
		{"mate of one side", func(s *sample) { s.x2.Mate = ID{} }, "part mate: X1 is mated to X2, but X2 is not mated to X1: name X1 as the mate of X2 too"},
		{"part in no loom", func(s *sample) { s.f1.Loom = none }, "part loom: the loom "},
		{"part at no node", func(s *sample) { s.f1.Loom, s.f1.Node = s.loom.ID, none }, "part node: loom L1 has no node"},
		{"part build", func(s *sample) { s.f1.Build = "ready" }, `part build: "ready" is not a build step`},
		{"part value", func(s *sample) { s.f1.Values = map[string]float64{"amp": math.Inf(1)} }, "part values.amp: +Inf is out of range"},
		{"housing", func(s *sample) { s.x1.Housing = &Housing{RatedAmp: Some(-1)} }, "part housing.rated_amp: -1 is negative"},
		{"wire on no sheet", func(s *sample) { s.w2.Sheet = none }, "wire sheet: lies on a sheet"},
		{"wire at no part", func(s *sample) { s.w1.A.Part = none }, "wire a.part: the part "},
		{"wire at no pin", func(s *sample) { s.w1.B.Pin = "7" }, `wire b.pin: F2 has no pin "7": it has 1, 2`},
		{"wire to another sheet", func(s *sample) { s.w1.B = End{Part: s.k1.ID, Pin: "30"} }, "wire b: pin 30 of K1 is not shown on the sheet"},
		{"bend far away", func(s *sample) { s.w1.Via = []geom.Point{{}, far} }, "wire via[1]: 100001, 0 lies off any sheet"},
		{"end far away", func(s *sample) { s.w2.B.At = far }, "wire b.at: 100001, 0 lies off any sheet"},
		{"negative length", func(s *sample) { s.w1.LengthMM = Some(-1) }, "wire length_mm: -1 is negative"},
		{"negative slack", func(s *sample) { s.w1.SlackMM = Some(-1) }, "wire slack_mm: -1 is negative"},
		{"negative joint", func(s *sample) { s.w1.B.JointOhm = Some(-1) }, "wire b.joint_ohm: -1 is negative"},
		{"temperature", func(s *sample) { s.w1.TempC = huge }, "wire temp_c: 1e+10 is out of range"},
		{"metal", func(s *sample) { s.w1.Metal = "tin" }, `wire metal: "tin" is not a conductor metal`},
		{"wire in no loom", func(s *sample) { s.w1.Loom = none }, "wire loom: the loom "},
		{"route without a loom", func(s *sample) { s.w1.Loom = ID{} }, "wire route: names segments but the wire has no loom"},
		{"route of no segment", func(s *sample) { s.w1.Route = []ID{testID(33), none} }, "wire route[1]: loom L1 has no segment"},
		{"wire in no group", func(s *sample) { s.w1.Twist = none }, "wire twist: the wire group "},
		{"wire in no screen", func(s *sample) { s.w1.Screen = none }, "wire screen: the wire group "},
		{"wire build", func(s *sample) { s.w2.Build = "ready" }, `wire build: "ready"`},
		{"group type", func(s *sample) { s.twist.Type = "" }, `wire group type: "" is not a wire group`},
		{"drain is gone", func(s *sample) { s.twist.Drain = none }, "wire group drain: the wire "},
		{"node twice", func(s *sample) { s.loom.Nodes = append(s.loom.Nodes, Node{ID: testID(31)}) }, "loom nodes[2].id: the ID"},
		{"node far away", func(s *sample) { s.loom.Nodes[1].At = far }, "loom nodes[1].at: 100001, 0 lies off"},
		{"segment twice", func(s *sample) { s.loom.Segments = append(s.loom.Segments, s.loom.Segments[0]) }, "loom segments[1].id: the ID"},
		{"segment from nowhere", func(s *sample) { s.loom.Segments[0].From = none }, "loom segments[0].from: loom L1 has no node"},
		{"segment to nowhere", func(s *sample) { s.loom.Segments[0].To = none }, "loom segments[0].to: loom L1 has no node"},
		{"segment length", func(s *sample) { s.loom.Segments[0].LengthMM = Some(-1) }, "loom segments[0].length_mm: -1 is negative"},
		{"hole", func(s *sample) { s.loom.Segments[0].Holes = []Hole{{DiameterMM: Some(-2)}} }, "loom segments[0].holes[0].diameter_mm: -2 is negative"},
		{"engine", func(s *sample) { s.state.Engine = "hot" }, `operating state engine: "hot" is not an engine state`},
		{"setting of no part", func(s *sample) { s.state.Set[0].Part = none }, "operating state set[0].part: the part "},
		{"duty", func(s *sample) { s.state.Set[0].Duty = Some(1.5) }, "operating state set[0].duty: 1.5 is not a share"},
		{"note on no sheet", func(s *sample) { s.note.Sheet = none }, "note sheet: lies on a sheet"},
		{"note far away", func(s *sample) { s.note.At = far }, "note at: 100001, 0 lies off"},
		{"note size", func(s *sample) { s.note.Size = -1 }, "note size: -1 is not a size"},
		{"sheet size", func(s *sample) { s.sheet.Width = 1_000_000 }, "sheet width: 1000000 is not a size"},
		{"reading at no part", func(s *sample) { s.reading.From.Part = none }, "reading from.part: the part "},
		{"reading to no pin", func(s *sample) { s.reading.To = PinRef{s.f1.ID, "9"} }, `reading to.pin: F1 has no pin "9"`},
		{"reading in no state", func(s *sample) { s.reading.State = none }, "reading state: the operating state "},
		{"reading of what", func(s *sample) { s.reading.Quantity = "watt" }, `reading quantity: "watt" is not a quantity`},
		{"acceptance of no rule", func(s *sample) { s.accepted.Rule = "" }, "acceptance rule: an acceptance needs the rule"},
		{"acceptance without a reason", func(s *sample) { s.accepted.Reason = "" }, "acceptance reason: an acceptance needs a reason"},
		{"acceptance of two in one", func(s *sample) { s.accepted.Items[0].Wire = s.w1.ID }, "acceptance items[0]: names several items"},
		{"acceptance value", func(s *sample) { s.accepted.Value = Some(2e9) }, "acceptance value: 2e+09 is out of range"},
		{"reading value", func(s *sample) { s.reading.Value = math.NaN() }, "reading value: NaN is out of range"},
		{"system voltage", func(s *sample) { s.info.SystemVolt = huge }, "document system_volt: 1e+10 is out of range"},
		{"limit", func(s *sample) { s.info.Limits = map[string]float64{"x": -1e10} }, "document limits.x: -1e+10 is out of range"},
		{"kind without a name", func(s *sample) { s.own.Name = "" }, "part kind name: a part kind needs a name"},
		{"kind default", func(s *sample) { s.own.Params = []Param{{Default: huge}} }, "part kind params[0].default: 1e+10"},
		{"kind argument", func(s *sample) {
			s.own.Elements = []Element{{Name: "e", Type: ElemOpen, A: "#n", B: "#m", Args: map[string]Arg{"ohm": {Value: math.Inf(-1)}}}}
		}, "part kind elements[0].args.ohm: -Inf"},
		{"kind pin", func(s *sample) { s.own.Pins = []Pin{{At: far}} }, "part kind pins[0].at: 100001"},
		{"kind pin direction", func(s *sample) { s.own.Pins = []Pin{{Dir: "north"}} }, `part kind pins[0].dir: "north"`},
		{"kind role", func(s *sample) { s.own.Roles = []Role{{Name: "r", Shapes: []Shape{{Radius: -1}}}} }, "part kind roles[0].shapes[0].radius: -1"},
		{"kind shape", func(s *sample) { s.own.Sections[0].Shapes = []Shape{{Points: []geom.Point{far}}} }, "part kind sections[0].shapes[0].points[0]: 100001"},
		{"kind arc", func(s *sample) { s.own.Sections[0].Shapes = []Shape{{Sweep: math.NaN()}} }, "part kind sections[0].shapes[0].sweep: NaN"},
		{"kind without a symbol", func(s *sample) { s.own.Sections, s.own.Pins = nil, nil }, "part kind sections: a kind needs at least one section"},
		{"kind parameter twice", func(s *sample) { s.own.Params = []Param{{Name: "ohm"}, {Name: "ohm"}} }, `part kind params[1].name: parameter "ohm" is there twice`},
		{"kind position without a name", func(s *sample) { s.own.Positions = []string{"off", " "} }, `part kind positions[1]: position needs a name`},
		{"kind role twice", func(s *sample) { s.own.Roles = []Role{{Name: "r"}, {Name: "r"}} }, `part kind roles[1].name: role "r" is there twice`},
		{"kind pin twice", func(s *sample) { s.own.Pins = []Pin{{Name: "1"}, {Name: "1"}} }, `part kind pins[1].name: pin "1" is there twice`},
		{"kind pin in no section", func(s *sample) { s.own.Pins = []Pin{{Name: "1", Section: "back"}} }, `part kind pins[0].section: pin "1" is in the section "back"`},
		{"kind element at no pin", func(s *sample) { s.own.Elements = []Element{{Name: "e", Type: ElemResistor, A: "#n", B: "9"}} }, `part kind elements[0].b: "9" is neither a pin nor an inner node`},
		{"kind element of no type", func(s *sample) { s.own.Elements = []Element{{Name: "e", Type: "resister", A: "#n", B: "#m"}} }, `part kind elements[0].type: "resister" is not an element type`},
		{"kind element twice", func(s *sample) {
			e := Element{Name: "e", Type: ElemOpen, A: "#n", B: "#m"}
			s.own.Elements = []Element{e, e}
		}, `part kind elements[1].name: element "e" is there twice`},
		{"kind element by no parameter", func(s *sample) {
			s.own.Elements = []Element{{Name: "e", Type: ElemResistor, A: "#n", B: "#m", Args: map[string]Arg{"ohm": {Param: "r"}}}}
		}, `part kind elements[0].args.ohm: names the parameter "r", which is not declared`},
		{"kind regulator fed from nowhere", func(s *sample) { s.own.Elements = []Element{{Name: "e", Type: ElemRegulator, A: "#n", B: "#m"}} }, `part kind elements[0].feed: "" is neither a pin`},
		{"kind contact without its coil", func(s *sample) {
			s.own.Elements = []Element{{Name: "e", Type: ElemContact, A: "#n", B: "#m", Coil: "c"}}
		}, `part kind elements[0].coil: there is no coil named "c"`},
		{"kind contact in no position", func(s *sample) {
			s.own.Elements = []Element{{Name: "e", Type: ElemContact, A: "#n", B: "#m", In: []string{"up"}}}
		}, `part kind elements[0].in[0]: the kind has no position "up"`},
		{"kind element with the engine", func(s *sample) {
			s.own.Elements = []Element{{Name: "e", Type: ElemOpen, A: "#n", B: "#m", When: []Engine{"hot"}}}
		}, `part kind elements[0].when[0]: "hot" is not an engine state`},
		{"kind role element", func(s *sample) {
			s.own.Roles = []Role{{Name: "r", Elements: []Element{{Name: "e", Type: ElemOpen, A: "1", B: "#m"}}}}
		}, `part kind roles[0].elements[0].a: "1" is neither @, the pin, nor`},
		{"mated to itself", func(s *sample) { s.x2.Mate = ID{}; s.x1.Mate = s.x1.ID }, "part mate: X1 is mated to itself"},
		{"no system voltage", func(s *sample) { s.info.SystemVolt = Some(0) }, "document system_volt: 0 V is not a system voltage"},
		{"kind width", func(s *sample) { s.own.Sections[0].MinWidth = -5 }, "part kind sections[0].min_width: -5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := newSample()
			c.do(s)
			got := problemTexts(s.doc())
			require.NotEmpty(t, got)
			assert.Contains(t, strings.Join(got, "\n"), c.want)
			assert.LessOrEqual(t, len(got), 2, "one break, one report: %v", got)
		})
	}
}

func TestKindDefinedTwice(t *testing.T) {
	s := newSample()
	twin := &Kind{ID: testID(61), Name: "own"}
	assert.Contains(t, problemTexts(s.doc().With(Put{twin.Key(), twin})), `part kind name: part kind "own" is defined twice`)
}

func TestUnknownKindIsNoProblem(t *testing.T) {
	s := newSample()
	s.f1.Kind = "of-a-later-version"
	d := s.doc()
	assert.Empty(t, problemTexts(d))
	assert.Nil(t, d.KindOf(s.f1))
}

func TestCheckOrderIsStable(t *testing.T) {
	s := newSample()
	s.f1.Values = map[string]float64{"a": 1e10, "b": 1e10, "c": 1e10, "d": 1e10}
	s.w1.Metal, s.w2.Metal = "x", "y"
	want := problemTexts(s.doc())
	require.Len(t, want, 6)
	for range 20 {
		assert.Equal(t, want, problemTexts(s.doc()))
	}
}
