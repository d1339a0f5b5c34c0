package netlist

import (
	"loomwright/calc"
	"loomwright/calc/tables"
)

// Cells is what a battery counts as: Volt behind Ohm.
type Cells struct {
	Volt, Ohm               float64
	VoltFormula, OhmFormula string // empty where the value is the part's own or its kind's default
	Source                  tables.Source
}

// Cells returns the open-circuit voltage and inner resistance of a battery.
// What the part itself says goes first; then the voltage by its state of charge
// and the resistance by its cold cranking current and temperature; then the
// defaults of the kind. Charge counts as that of a rested battery at 25 degC.
func (b *Branch) Cells() Cells {
	c := Cells{Volt: b.Value("volt").Or(0), Ohm: b.Value("ohm").Or(0)}
	nominal := 12.0
	if c.Volt > 18 {
		nominal = 24
	}
	if charge, ok := b.Value("charge").Get(); ok && !b.given("volt") {
		if r, err := calc.RestVoltage(charge, nominal); err == nil {
			c.Volt, c.VoltFormula, c.Source = r.Value, r.Formula, c.Source.And(r.Source)
		}
	}
	amp, ok := b.Value("cold_crank_amp").Get()
	if !ok || b.given("ohm") {
		return c
	}
	full, err := calc.RestVoltage(1, nominal)
	if err != nil {
		return c
	}
	cold, err := calc.BatteryCold(full.Value, amp, nominal)
	if err != nil {
		return c
	}
	warm, err := calc.BatteryWarm(cold.Value)
	if err != nil {
		return c
	}
	// Between the two temperatures on record the value runs straight.
	const coldC, warmC = -18, ratedC
	share := (min(max(b.Value("temp_degc").Or(warmC), coldC), warmC) - coldC) / (warmC - coldC)
	c.Ohm = cold.Value + share*(warm.Value-cold.Value)
	c.OhmFormula, c.Source = cold.Formula, c.Source.And(cold.Source)
	if share > 0 {
		c.OhmFormula, c.Source = c.OhmFormula+"; warm "+warm.Formula, c.Source.And(warm.Source)
	}
	return c
}

// given reports whether an argument's value is the part's own or fixed in its
// kind, not a default.
func (b *Branch) given(arg string) bool {
	a, ok := b.Element.Args[arg]
	if !ok || a.Param == "" {
		return ok
	}
	if b.Pin != nil {
		if _, ok := b.Pin.Values[a.Param]; ok {
			return true
		}
	}
	_, ok = b.Part.Values[a.Param]
	return ok
}
