package schematic

import (
	"slices"

	"loomwright/calc/unit"
)

// Rating says which argument of an element is the figure people know a part
// by: the amperes of a fuse, the watts of a lamp. Must figures decide, and are
// asked for where nobody gave them; arg is "" where there is none.
func (t ElementType) Rating() (arg string, q unit.Quantity, must bool) {
	switch t {
	case ElemFuse, ElemMotor, ElemCurrent:
		return "amp", unit.Amp, true
	case ElemLamp, ElemPower:
		return "watt", unit.Watt, true
	case ElemAlternator:
		return "limit_amp", unit.Amp, true
	case ElemBattery:
		return "volt", unit.Volt, false
	case ElemResistor:
		return "ohm", unit.Ohm, false
	}
	return "", 0, false
}

// MainParam returns the parameter people know parts of the kind by: the rating
// of a fuse, the watts of a lamp, what a relay or connector may carry, else the
// first there is.
func (k *Kind) MainParam() (Param, bool) {
	rated := func(must bool) (Param, bool) {
		for _, e := range k.Elements {
			arg, _, decides := e.Type.Rating()
			if p, ok := k.Param(e.Args[arg].Param); ok && decides == must {
				return p, true
			}
		}
		return Param{}, false
	}
	if p, ok := rated(true); ok {
		return p, true
	}
	if p, ok := k.Param("rated_amp"); ok && (k.OwnPins || k.switches()) {
		return p, true
	}
	if p, ok := rated(false); ok {
		return p, true
	}
	if len(k.Params) == 0 {
		return Param{}, false
	}
	return k.Params[0], true
}

// switches reports whether parts of the kind have contacts that move.
func (k *Kind) switches() bool {
	return slices.ContainsFunc(k.Elements, func(e Element) bool { return e.Type == ElemContact })
}

// Quantity returns what the parameter measures: a ratio where its unit has no
// quantity of its own.
func (p Param) Quantity() unit.Quantity { return QuantityOf(p.Unit) }

// QuantityOf returns the quantity of a unit as parameters write it.
func QuantityOf(u string) unit.Quantity {
	switch u {
	case "V":
		return unit.Volt
	case "A":
		return unit.Amp
	case "ohm":
		return unit.Ohm
	case "W":
		return unit.Watt
	case "mm":
		return unit.Length
	case "mm2":
		return unit.Area
	case "degC":
		return unit.Temp
	case "Ah":
		return unit.AmpHour
	case "count":
		return unit.Count
	}
	return unit.Ratio
}
