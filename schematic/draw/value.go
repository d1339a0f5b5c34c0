package draw

import (
	"strconv"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
)

// mainValue returns the figure that stands beside a part: the rating of a
// fuse, the watts of a lamp. A figure that decides and that nobody gave reads
// "? A": what is missing must be seen. Switches, relays and connectors have none.
func mainValue(k *schematic.Kind, p *schematic.Part) string {
	if k == nil || k.OwnPins || len(k.Positions) > 0 {
		return ""
	}
	for _, e := range k.Elements {
		if e.Type == schematic.ElemCoil || e.Type == schematic.ElemContact {
			return ""
		}
	}
	for _, e := range k.Elements {
		if s := elementValue(k, p, nil, e); s != "" {
			return s
		}
	}
	return ""
}

// pinValue returns the figure of an own pin: the fuse of an output, say.
func pinValue(k *schematic.Kind, p *schematic.Part, pin *schematic.Pin) string {
	if k == nil {
		return ""
	}
	role, _ := k.Role(pin.Role)
	for _, e := range role.Elements {
		if e.Type != schematic.ElemFuse {
			continue
		}
		return elementValue(k, p, pin, e)
	}
	return ""
}

func elementValue(k *schematic.Kind, p *schematic.Part, pin *schematic.Pin, e schematic.Element) string {
	arg, quantity, must := e.Type.Rating()
	if arg == "" {
		return ""
	}
	v, known := k.Value(p, pin, e, arg).Get()
	if charge, ok := chargeOf(p, e); ok {
		return strconv.FormatFloat(charge*100, 'f', 0, 64) + " %"
	}
	switch {
	case known:
		return unit.Format(quantity, v, unit.SI)
	case !must:
		return ""
	case quantity == unit.Watt:
		return "? W"
	}
	return "? A"
}

// chargeOf returns the state of charge a battery's voltage follows, where the
// part says how full it is and not how many volts: the default of the kind
// would then be a figure that nothing is computed with.
func chargeOf(p *schematic.Part, e schematic.Element) (float64, bool) {
	volt := e.Args["volt"]
	if _, own := p.Values[volt.Param]; e.Type != schematic.ElemBattery || own || volt.Param == "" {
		return 0, false
	}
	charge, ok := p.Values[e.Args["charge"].Param]
	return charge, ok
}

// wireTexts returns the label of a wire, from the full one to the shortest:
// "W12 1.5 BU/RD", "W12 1.5", "W12", as far as the words are asked for. Square millimetres go without their unit,
// as on any harness drawing; gauges keep their name.
func wireTexts(w *schematic.Wire, show unit.Show, words []schematic.WireWord) []string {
	size := ""
	near, other := show.Near(w.Size)
	switch {
	case !w.Size.Known():
	case other && near.System == unit.Metric:
		size = "≈" + strconv.FormatFloat(near.N, 'f', -1, 64)
	case other:
		size = "≈" + near.String()
	case w.Size.System == unit.Metric:
		size = strconv.FormatFloat(w.Size.N, 'f', -1, 64)
	default:
		size = w.Size.String()
	}
	var said []string
	for _, word := range words {
		s := ""
		switch word {
		case schematic.WordName:
			s = short(w.Name)
		case schematic.WordSize:
			s = size
		case schematic.WordColor:
			s = w.Color.String()
		case schematic.WordCircuit:
			s = short(w.Circuit)
		}
		if s != "" {
			said = append(said, s)
		}
	}
	texts := make([]string, 0, len(said))
	for n := len(said); n > 0; n-- {
		texts = append(texts, strings.Join(said[:n], " "))
	}
	return texts
}

func join(words ...string) string {
	var b strings.Builder
	for _, w := range words {
		if w == "" {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(w)
	}
	return b.String()
}

// short keeps a designation from a file from running over the whole sheet.
func short(name string) string {
	const letters = 24
	n := 0
	for i := range name {
		if n++; n > letters {
			return name[:i] + ellipsis
		}
	}
	return name
}
