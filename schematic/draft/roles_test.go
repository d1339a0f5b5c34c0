package draft

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

// A small control unit from nothing: a supply, outputs to ground with a value
// each, everything between @, the pin, and an inner point.
func TestAKindWhosePartsBringTheirOwnPins(t *testing.T) {
	d := New()
	d.Edit(func(k *schematic.Kind) { k.Title, k.Prefix = "Driver box", "A" })
	require.NoError(t, d.SetForm(""))
	require.NoError(t, d.SetOwnPins(true))
	assert.Equal(t, "box", d.Form(), "own pins are laid out by the symbol")
	require.Error(t, d.SetForm(""))
	roles, el, values, pins := d.Roles(), d.Elements(), d.Values(), d.Pins()
	set(t, roles, 0, "supply", "supply", "power")
	set(t, roles, 1, "low side", "output to ground", "output")
	assert.Equal(t, "low-side", roles.Text(1, 0))
	assert.Equal(t, "supply", pins.Text(0, 4), "pins follow a renamed role")
	require.ErrorContains(t, roles.Set(1, 2, "magic"), "is not a signal")
	require.NoError(t, pins.Set(1, 4, "Low side"))
	require.Error(t, pins.Set(1, 4, ""), "an own pin needs a role")

	assert.Equal(t, "Of role", el.Columns[1].Title, "the role stands second")
	set(t, el, 0, "draw", "", "constant-current", "", "#-", "amp = 0.2, min_volt = 6", "electronics", "", "", "idle, run")
	assert.Equal(t, []string{"@", "#-", "idle, running", "supply"}, []string{el.Text(0, 3), el.Text(0, 4), el.Text(0, 9), el.Text(0, 1)})
	set(t, el, 1, "driver", "", "output")
	require.NoError(t, el.Set(1, 1, "low-side"))
	require.NoError(t, el.Set(1, 4, "#-"))
	assert.Equal(t, "limit_amp = limit_amp, ohm = ohm", el.Text(1, 5))
	require.ErrorContains(t, el.Set(1, 3, "1"), "@")
	for line := range values.Len() {
		assert.Equal(t, "low-side", values.Text(line, 1), "what it needs is each pin's own")
	}
	require.NoError(t, d.Sound())
	k := d.Kind()
	require.Len(t, k.Roles, 2)
	assert.Empty(t, k.Elements)
	assert.Equal(t, []schematic.Engine{schematic.EngineIdle, schematic.EngineRunning}, k.Roles[0].Elements[0].When)
	assert.Len(t, k.Roles[1].Params, 2)
	require.ErrorContains(t, d.SetOwnPins(false), "elements or values")

	require.NoError(t, values.Set(0, 0, "drive ohm"))
	again := Of(d.Kind(), false)
	assert.Equal(t, d.Kind(), again.Kind())
	assert.NotContains(t, el.Text(1, 5), " = ohm", "the role's element follows a renamed value")
	require.NoError(t, el.Set(1, 1, ""))
	assert.Equal(t, "#common", el.Text(1, 3), "the kind knows no @")
	roles.Remove(1)
	assert.Equal(t, "supply", d.Kind().Pins[1].Role)
	assert.Empty(t, of(d.values, "low-side"))
}

func TestSignalsAreRolesByThemselves(t *testing.T) {
	d := New()
	d.Edit(func(k *schematic.Kind) { k.Title = "Sender" })
	require.NoError(t, d.Pins().Set(0, 4, "sensor ground"))
	k := d.Kind()
	require.Len(t, k.Roles, 1)
	assert.Equal(t, schematic.Role{Name: "sensor-ground", Title: "sensor ground", Signal: "sensor-ground"}, k.Roles[0])
	require.NoError(t, d.Sound())
	require.ErrorContains(t, d.Pins().Set(0, 4, "magic"), "add it under Roles first")
	require.ErrorContains(t, d.Values().Set(0, 5, "x"), "no such cell")
	d.Elements().Add()
	require.ErrorContains(t, d.Elements().Set(0, 9, "sensor-ground"), "each part brings itself")
	require.ErrorContains(t, d.Elements().Set(0, 8, "asleep"), "state of the engine")
	require.NoError(t, d.Elements().Set(0, 8, "off, cranking, idle, running"))
	assert.Empty(t, d.Kind().Elements[0].When, "in all of them is always")
}

func TestRenamedPinsAreKnown(t *testing.T) {
	d := Of(library(t).Kind("relay-make"), false)
	p := d.Pins()
	assert.Empty(t, d.Renamed())
	first, second := p.Text(0, 0), p.Text(1, 0)
	require.NoError(t, p.Set(0, 0, "x"))
	require.NoError(t, p.Set(1, 0, first))
	require.NoError(t, p.Set(0, 0, second))
	assert.Equal(t, map[string]string{first: second, second: first}, d.Renamed(), "two that change places")
	p.Remove(0)
	assert.Equal(t, map[string]string{second: first}, d.Renamed())
	assert.Empty(t, Of(library(t).Kind("relay-make"), true).Renamed())
}
