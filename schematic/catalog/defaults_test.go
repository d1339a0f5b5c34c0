package catalog

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

// Defaults against published figures. Where the source is our memory, the kind
// must say so to the user as well.
func TestSourcedDefaults(t *testing.T) {
	lib := library(t)
	const mem = "from memory"
	for _, tc := range []struct {
		kind, param string
		min, max    float64
		says, why   string
	}{
		{"relay-make", "coil_ohm", 90, 90, "several data sheets", "12 V ISO 7588-1 mini relays: 75, 80, 90 and 100 ohm; 90 is the nominal of an 81 to 99 ohm acceptance test"},
		{"relay-make", "pull_in_volt", 7.2, 8.4, "data sheets", "pull-in at most 7.2 to 8.4 V; the worst is the default"},
		{"relay-make", "drop_out_volt", 1.2, 1.2, "data sheets", "drop-out at least 1.2 V"},
		{"relay-make", "contact_ohm", 0.002, 0.005, "data sheets", "20 mV typical at 10 A, and 3 mΩ typical, in two makers' data"},
		{"relay-make", "rated_amp", 40, 40, "data sheets", "40 A make contact at 14 V"},
		{"relay-change-over", "rated_break_amp", 30, 30, "data sheets", "30 A break contact at 14 V"},
		{"relay-make-resistor", "suppress_ohm", 680, 680, mem, "usual 680 ohm at 12 V"},
		{"battery", "volt", 12.6, 12.6, "rest-voltage list", "full charge in the published list of rest voltages"},
		{"battery", "ohm", 0.004, 0.008, mem, "4 to 8 mΩ, 45 to 100 Ah at 25 °C"},
		{"alternator", "volt", 13.7, 14.6, "specification", "13.7 to 14.6 V at 20 °C, one regulator specification"},
		{"ground-body", "joint_ohm", 0.0001, 0.0005, mem, "clean stud 0.1 to 0.5 mΩ"},
		{"ring-terminal", "joint_ohm", 0.0001, 0.0001, mem, "ring and stud 0.1 mΩ"},
		{"connector-plug", "contact_ohm", 0.003, 0.005, mem, "3 to 5 mV per A new"},
		{"injector-high", "ohm", 12, 16, mem, "high-impedance injectors"},
		{"terminator", "ohm", 120, 120, mem, "ISO 11898-2 nominal termination"},
		{"switch-illuminated", "led_ohm", 470, 1000, "common practice, no source", "about 15 mA at 12 V"},
	} {
		t.Run(tc.kind+" "+tc.param, func(t *testing.T) {
			p, ok := lib.Kind(tc.kind).Param(tc.param)
			require.True(t, ok)
			v, known := p.Default.Get()
			require.True(t, known)
			require.GreaterOrEqual(t, v, tc.min, tc.why)
			require.LessOrEqual(t, v, tc.max, tc.why)
			require.Contains(t, p.Source, tc.says)
		})
	}
}

// The coil at 12 V takes 1.4 to 1.9 W and 120 to 160 mA in several data sheets.
func TestRelayCoilPower(t *testing.T) {
	k := library(t).Kind("relay-make")
	e, _ := elementNamed(k, "coil")
	ohm, _ := k.Value(New(k, "K1"), nil, e, "ohm").Get()
	require.InDelta(t, 1.65, 12*12/ohm, 0.25)
	require.InDelta(t, 0.140, 12/ohm, 0.020)
}

// What only the builder can know must stay unknown until it is given.
func TestUnknownUntilGiven(t *testing.T) {
	lib := library(t)
	for _, name := range strings.Fields(`fuse-regular.amp fuse-mini.amp fuse-maxi.amp fuse-sf30.amp fuse-sf51.amp fusible-link.amp circuit-breaker.amp
		lamp.watt lamp-two-filament.main_watt lamp-led.watt motor.amp motor.stall_amp radiator-fan.amp fuel-pump.amp starter-motor.amp
		heater.ohm load-resistive.ohm load-two-pin.amp horn.amp glow-plug.ohm alternator.limit_amp battery.capacity_ah
		control-unit.running_amp control-unit.quiescent_amp ignition-coil.ohm ignition-coil-driver.amp gauge-bus.amp switch-toggle.rated_amp`) {
		kind, param, _ := strings.Cut(name, ".")
		p, ok := lib.Kind(kind).Param(param)
		require.True(t, ok, name)
		require.False(t, p.Default.Known(), name)
	}
	for _, kind := range []string{"fuse-block-mini", "fuse-block-regular", "fuse-block-maxi"} {
		r, ok := lib.Kind(kind).Role("output")
		require.True(t, ok)
		p, _ := r.Param("amp")
		require.False(t, p.Default.Known(), kind)
	}
}

// A source line must be more than a word, and never leaves open where it is from.
func TestSourcesSayWhereFrom(t *testing.T) {
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		lists := [][]schematic.Param{k.Params}
		for _, r := range k.Roles {
			lists = append(lists, r.Params)
		}
		for _, params := range lists {
			for _, p := range params {
				if !p.Default.Known() {
					continue
				}
				ok := false
				for _, mark := range []string{"from memory", "data sheet", "common practice, no source", "published", "nominal voltage"} {
					ok = ok || strings.Contains(p.Source, mark)
				}
				require.True(t, ok, "%s: %q", p.Name, p.Source)
			}
		}
	})
}

// Numbers put straight into an element have no source line; only pieces that
// no finding rests on may do so.
func TestFewBareNumbers(t *testing.T) {
	allowed := map[string]bool{"excitation diodes": true, "coil diode": true, "LED": true}
	eachKind(t, func(t *testing.T, k *schematic.Kind) {
		all := k.Elements
		for _, r := range k.Roles {
			all = append(all[:len(all):len(all)], r.Elements...)
		}
		for _, e := range all {
			for arg, a := range e.Args {
				require.True(t, a.Param != "" || allowed[e.Name], "%s.%s is a bare number", e.Name, arg)
			}
		}
	})
}

func TestDutyIsSaid(t *testing.T) {
	lib := library(t)
	for kind, duty := range map[string]string{"solenoid-continuous": "continuous", "solenoid-intermittent": "intermittent", "solenoid-latching": "intermittent", "starter-motor": "intermittent"} {
		require.Equal(t, duty, lib.Kind(kind).Duty, kind)
	}
}
