package netlist_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
)

// netOf returns the names of the pins that share a net with a pin.
func netOf(t testing.TB, n *netlist.Netlist, pin string) []string {
	t.Helper()
	s := sheet{t, &netlist.Solution{Netlist: n}}
	node := n.NodeOf(s.ref(pin))
	require.GreaterOrEqual(t, node, 0, pin)
	var names []string
	for _, i := range n.Nets[n.Nodes[node].Net].Nodes {
		names = append(names, n.Nodes[i].Name)
	}
	return names
}

func TestBuildNets(t *testing.T) {
	for _, c := range []struct {
		name, why, plan, pin string
		want                 []string
	}{
		{"wire joins two pins", "a wire is one potential but for its drop",
			"G1 battery\nF1 fuse-regular\nW1 G1.+ F1.1 1mm2 100", "G1.+", []string{"F1.1", "G1.+"}},
		{"fuse separates", "the two sides of a fuse are two circuits",
			"G1 battery\nF1 fuse-regular\nW1 G1.+ F1.1 1mm2 100", "F1.2", []string{"F1.2"}},
		{"splice joins three wires", "all wires of a splice end at its one pin",
			"SP1 splice\nE1 lamp\nE2 lamp\nE3 lamp\nW1 SP1.1 E1.1 1mm2 1\nW2 SP1.1 E2.1 1mm2 1\nW3 E3.1 SP1.1 1mm2 1",
			"SP1.1", []string{"E1.1", "E2.1", "E3.1", "SP1.1"}},
		{"studs of one ground share the metal", "sheet metal joins every stud of the body, not those of the engine",
			"GND1 ground-body\nGND2 ground-body\nGND3 ground-engine", "GND1.1", []string{"GND1.1", "body metal", "GND2.1"}},
		{"plugged halves join by cavity", "cavities of equal name meet; the one the other half lacks stays alone",
			"X1 connector-plug\nX1.1 cavity\nX1.2 cavity\nX1.3 cavity\nX2 connector-receptacle\nX2.1 cavity\nX2.2 cavity\nX1 = X2",
			"X1.2", []string{"X1.2", "X2.2"}},
		{"cavity without a partner", "see above",
			"X1 connector-plug\nX1.1 cavity\nX1.3 cavity\nX2 connector-receptacle\nX2.1 cavity\nX1 = X2", "X1.3", []string{"X1.3"}},
		{"unplugged halves", "two halves that do not name each other do not touch",
			"X1 connector-plug\nX1.1 cavity\nX2 connector-receptacle\nX2.1 cavity", "X1.1", []string{"X1.1"}},
		{"bus bar", "joints of own pins meet at one inner node",
			"X1 bus-bar\nX1.1 stud\nX1.2 stud", "X1.2", []string{"X1.1", "X1.2", "X1#rail"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, netOf(t, netlist.Build(doc(t, c.plan)), c.pin), c.why)
		})
	}
}

func TestNetNames(t *testing.T) {
	n := netlist.Build(doc(t, "G1 battery\nF1 fuse-regular\nE1 lamp\nGND1 ground-body\n"+
		"W1 G1.+ F1.1 1mm2 1 supply\nW2 F1.2 E1.1 1mm2 1\nW3 E1.2 GND1.1 1mm2 1"))
	names := map[string]string{}
	for _, net := range n.Nets {
		for _, i := range net.Nodes {
			names[n.Nodes[i].Name] = net.Name
		}
	}
	assert.Equal(t, "supply", names["G1.+"], "the circuit name of a wire comes first")
	assert.Equal(t, "body metal", names["E1.2"], "then ground metal")
	assert.Equal(t, "E1.1", names["F1.2"], "then the first pin")
	seen := map[string]bool{}
	for _, net := range n.Nets {
		assert.False(t, seen[net.Name], net.Name)
		seen[net.Name] = true
	}
}

func TestBuildKeepsWhatItCannotCompute(t *testing.T) {
	d := doc(t, "G1 battery\nE1 lamp\nZ1 nobody-knows-this\nM1 motor volt=12\nM2 motor volt=12 amp=-3\n"+
		"W1 G1.+ E1.1 - 100\nW2 loose E1.1 1mm2 100\nW3 E1.2 G1.- 1mm2 -\nW4 E1.1 E1.1 1mm2 5\nW5 E1.1 M1.33 1mm2 0")
	n := netlist.Build(d)
	require.Len(t, n.Unknown, 1)
	assert.Equal(t, "Z1", n.Unknown[0].Name)
	missing := map[string][]string{}
	for i := range n.Branches {
		missing[n.Branches[i].Name()] = n.Branches[i].Missing
	}
	assert.Equal(t, []string{"size"}, missing["W1"])
	assert.Equal(t, []string{"length"}, missing["W3"])
	assert.Equal(t, []string{"length"}, missing["W5"], "no wire has no length")
	assert.Equal(t, []string{"rated power"}, missing["E1"])
	assert.Equal(t, []string{"running current"}, missing["M1"])
	assert.Equal(t, []string{"a usable running current"}, missing["M2"], "a motor does not give 3 A")
	loose := n.Branches[n.WireBranch(uuidOf(t, d, "W2"))]
	assert.Equal(t, "W2 loose end A", n.Nodes[loose.A].Name)
	assert.True(t, n.Nodes[loose.A].Inner)
	assert.Equal(t, -1, n.NodeOf(schematic.PinRef{Part: uuidOf(t, d, "G1"), Pin: "no such pin"}))
	assert.Equal(t, -1, n.WireBranch(schematic.ID{}))
	assert.Equal(t, "G1.-", n.Nodes[n.Reference].Name)
}

func uuidOf(t testing.TB, d *schematic.Doc, name string) schematic.ID {
	t.Helper()
	k, ok := d.Named(name)
	require.True(t, ok, name)
	return k.ID
}

func TestOwnPins(t *testing.T) {
	n := netlist.Build(doc(t, "A1 control-unit\nA1.1 supply\nA1.2 ground joint_ohm=0.02\nA1.3 output-low on_ohm=0.3\nA1.4 nonsense"))
	s := sheet{t, &netlist.Solution{Netlist: n}}
	assert.Equal(t, 0.02, n.Branches[s.branch("A1 pin 2")].Ohm, "the pin's own value")
	assert.Equal(t, 0.005, n.Branches[s.branch("A1 pin 1")].Ohm, "the role's default")
	out := n.Branches[s.branch("A1 pin 3")]
	assert.Equal(t, schematic.ElemOutput, out.Element.Type)
	assert.Equal(t, 0.3, out.Ohm)
	assert.Equal(t, "A1#gnd", n.Nodes[out.B].Name)
	for i := range n.Branches {
		assert.NotEqual(t, "A1 pin 4", n.Branches[i].Name(), "a role nobody defines has no elements")
	}
}

// Cavities are numbered #1 as well, and inner points are called #gnd: a pin of
// such a name is a pin all the same.
func TestPinsMayBeNamedLikeInnerPoints(t *testing.T) {
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0\nA1 control-unit running_amp=0.5 quiescent_amp=0.005\nA1.#1 supply\nA1.#gnd supply-permanent\nA1.3 ground\n"+
		"W1 G1.+ A1.#1"+fat+"\nW2 G1.+ A1.#gnd"+fat+"\nW3 A1.3 G1.-"+fat))
	assert.InDelta(t, 0.5, s.wire("W1"), 1e-6)
	assert.InDelta(t, 0.005, s.wire("W2"), 1e-6)
}
