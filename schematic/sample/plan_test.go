package sample_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/sample"
)

func newPlan(t *testing.T) *sample.Plan {
	t.Helper()
	lib, err := catalog.Default()
	require.NoError(t, err)
	return sample.NewPlan(lib)
}

func TestPlan(t *testing.T) {
	d, err := newPlan(t).Read(`volts 24
ambient 60
limit ground_volt=0.2
segment A 400 85 tube
G1 battery volt=12
A1 control-unit
A1.1 supply joint_ohm=0.01
S1 switch-toggle
W1 G1.+ A1.1 2.5mm2 500 on=A colour=BU/RD drain=S TXL
W2 A1.1 loose - - joints flry
state on running S1=on A1:1=on G1*0.5`)
	require.NoError(t, err)
	assert.InDelta(t, 24, d.Info().Volts(), 0)
	named := func(name string) schematic.ID {
		k, ok := d.Named(name)
		require.True(t, ok, name)
		return k.ID
	}
	w := d.Wire(named("W1"))
	assert.Equal(t, unit.MM2(2.5), w.Size)
	assert.Equal(t, named("G1"), w.A.Part)
	assert.Equal(t, "BU/RD", w.Color.String())
	assert.Equal(t, "TXL", w.Circuit, "a word it does not know is a circuit")
	assert.Len(t, w.Route, 1)
	assert.NotEqual(t, schematic.ID{}, w.Screen)
	loose := d.Wire(named("W2"))
	assert.Equal(t, "FLRY", loose.Insulation)
	assert.False(t, loose.LengthMM.Known())
	assert.True(t, loose.B.Loose())
	st := d.States()[0]
	assert.Equal(t, schematic.EngineRunning, st.Engine)
	require.Len(t, st.Set, 3)
	assert.Equal(t, "1", st.Set[1].Item)
	assert.Equal(t, schematic.Some(0.5), st.Set[2].Duty)
}

// A mistake names its line and never panics.
func TestPlanMistakes(t *testing.T) {
	for text, want := range map[string]string{
		"W1 G1.+ A1.1 1mm2 5":                        `plan line "W1 G1.+ A1.1 1mm2 5": there is no part G1 before it`,
		"G1":                                         "it needs 2 words",
		"segment A":                                  "it needs 3 words",
		"G1 battery volt":                            "write name=number",
		"G1 battery volt=x":                          "invalid syntax",
		"G1 battery\nstate on off G1":                "write S1=on or M1*0.5",
		"G1 battery\nW1 G1.+ loose 1elephant 5":      "1elephant",
		"G1 battery\nW1 G1.+ loose 1mm2 5 on=A":      "there is no segment before it",
		"twin G1 = G1":                               "there is no part twin0 before it",
		"X1 connector-plug\nX1 = X2":                 "there is no part X2 before it",
		"G1 battery\nW1 G1.+ loose 1mm2 5 colour=??": "??",
	} {
		_, err := newPlan(t).Read(text)
		assert.ErrorContains(t, err, want, text)
	}
}
