package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
)

func TestUseOfAWire(t *testing.T) {
	d := doc(t, `ambient 40
segment A 900 70 tube
G1 battery
F1 fuse-regular amp=10
F2 fuse-regular amp=10
E1 load-resistive ohm=2
E2 load-resistive ohm=4
E3 lamp
W1 G1.+ F1.1 1.5mm2 100
W2 F1.2 E1.1 1.5mm2 - on=A
W3 E1.2 G1.- 1.5mm2 500
W4 G1.+ F2.1 1.5mm2 100
W5 F2.2 E2.1 1.5mm2 - on=A
W6 E2.2 G1.- 1.5mm2 500
W7 F2.2 E3.1 1.5mm2 700
W8 E3.2 G1.- 1.5mm2 700
state all off`)
	n := netlist.Build(d)
	sols := n.SolveAll()
	use := func(name string) check.WireUse {
		k, _ := d.Named(name)
		u, ok := check.UseOf(n, sols, k.ID)
		require.True(t, ok)
		return u
	}
	w2 := use("W2")
	assert.InDelta(t, 6, w2.Amp.Or(0), 0.4, "12 V behind 2 Ω and a little")
	assert.Equal(t, schematic.Some(900), w2.LengthMM, "from the segment")
	assert.Equal(t, 70.0, w2.AmbientC)
	assert.Equal(t, 2, w2.Bundled, "the two wires of the segment")
	assert.Equal(t, "all", w2.StateName)
	assert.False(t, use("W4").Amp.Known(), "a lamp without data draws through it")
	_, ok := check.UseOf(n, sols, schematic.ID{1})
	assert.False(t, ok)
}

func TestLoadDropsFollowTheDocument(t *testing.T) {
	d := doc(t, "limit drop_lamp_volt=0.3")
	found := map[string]check.LoadDrop{}
	for _, l := range check.LoadDrops(d) {
		assert.Greater(t, l.Circuit, 0.0, l.Name)
		assert.NotEmpty(t, l.Title+l.CircuitSource)
		found[l.Name] = l
	}
	assert.Equal(t, 0.3, found["lamp"].Circuit)
	assert.Equal(t, 0.5, found["lamp"].Feed, "automotive handbook (from memory)")
	assert.Contains(t, found["lamp"].CircuitSource, "of this document")
	assert.Zero(t, found["heater"].Feed, "no limit of its own")
}
