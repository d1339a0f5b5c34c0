package edit

import (
	"encoding"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// fieldText is one thing an item says.
type fieldText struct {
	path    string // tells the field apart
	label   string // how people call it
	text    string
	key     string // what it means, where texts may be alike or IDs differ
	element bool   // of a list: what follows with this path belongs to it
	drawn   bool   // says only where or how the item is drawn
}

// same is what is compared: references by what they mean, not by the name their
// target has just now.
func (f fieldText) same() string {
	if f.key != "" {
		return f.key
	}
	return f.text
}

// words reads the fields of a document's items by reflection, so that no field
// of the file can be forgotten.
type words struct {
	doc  *schematic.Doc
	same map[schematic.ID]schematic.ID // IDs that mean another one; may be nil
	name map[schematic.ID]string
	item schematic.Item
	out  []fieldText
}

func (w *words) fields(it schematic.Item) []fieldText {
	w.item, w.out = it, nil
	w.structure(reflect.ValueOf(it).Elem(), "", "")
	for i := range w.out {
		w.out[i].drawn = drawnField(it, w.out[i].path)
	}
	return w.out
}

func (w *words) say(path, label, text string) {
	if text != "" {
		w.out = append(w.out, fieldText{path: path, label: label, text: text})
	}
}

// structure reads the fields of a struct.
func (w *words) structure(v reflect.Value, path, label string) {
	for i := range v.NumField() {
		f := v.Type().Field(i)
		tag, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if x, ok := v.Field(i).Interface().(schematic.Extra); ok {
			for _, k := range slices.Sorted(maps.Keys(x)) {
				w.say(path+"."+k, join(label, "field "+strconv.Quote(k)), string(x[k]))
			}
			continue
		}
		if tag == "" || tag == "-" || tag == "id" {
			continue
		}
		w.value(v.Field(i), path+"."+tag, tag, join(label, fieldName(w.item, label, tag)))
	}
}

// join names a field of a part of an item: "end A: terminal".
func join(label, name string) string {
	switch {
	case label == "":
		return name
	case name == "":
		return label
	}
	return label + ": " + name
}

// value reads one value; tag is its name in the file.
func (w *words) value(v reflect.Value, path, tag, label string) {
	switch x := v.Interface().(type) {
	case schematic.ID:
		if x != (schematic.ID{}) {
			w.out = append(w.out, fieldText{path: path, label: label, text: w.nameOf(x), key: w.meaning(x)})
		}
	case []schematic.ID:
		var names, keys []string
		for _, id := range x {
			names, keys = append(names, w.nameOf(id)), append(keys, w.meaning(id))
		}
		if len(x) > 0 {
			w.out = append(w.out, fieldText{path: path, label: label, text: strings.Join(names, ", "), key: strings.Join(keys, " ")})
		}
	case schematic.PinRef:
		w.pin(path, label, x.Part, x.Pin)
	case schematic.End:
		if x.Loose() {
			w.say(path+".part", label, "loose at "+place(x.At))
		} else {
			w.pin(path+".part", label, x.Part, x.Pin)
		}
		x.Part, x.Pin, x.At = schematic.ID{}, "", geom.Point{}
		w.structure(reflect.ValueOf(x), path, label)
	case geom.Point:
		if x != (geom.Point{}) || tag == "at" && v.CanInterface() && !isEnd(path) {
			w.say(path, label, place(x))
		}
	case []geom.Point:
		var at []string
		for _, p := range x {
			at = append(at, place(p))
		}
		w.say(path, label, strings.Join(at, "; "))
	case []schematic.WireWord:
		var said []string
		for _, s := range x {
			said = append(said, string(s))
		}
		w.say(path, label, strings.Join(said, ", "))
	case schematic.Num:
		if n, ok := x.Get(); ok {
			w.say(path, label, measure(tag, n))
		}
	case unit.Size:
		if x != (unit.Size{}) {
			w.say(path, label, x.String())
		}
	case map[string]float64:
		for _, k := range slices.Sorted(maps.Keys(x)) {
			name, text := w.param(k, x[k])
			w.say(path+"."+k, join(strings.TrimSuffix(strings.TrimSuffix(label, "value"), ": "), name), text)
		}
	case map[string]string:
		for _, k := range slices.Sorted(maps.Keys(x)) {
			w.say(path+"."+k, join(label, plainName(k)), x[k])
		}
	default:
		w.other(v, path, tag, label)
	}
}

// isEnd keeps the place of an end at a pin, which means nothing, out.
func isEnd(path string) bool { return path == ".a.at" || path == ".b.at" }

func (w *words) other(v reflect.Value, path, tag, label string) {
	if t, ok := v.Interface().(encoding.TextMarshaler); ok {
		if b, err := t.MarshalText(); err == nil {
			w.say(path, label, string(b))
			return
		}
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			w.structure(v.Elem(), path, label)
		}
	case reflect.Struct:
		w.structure(v, path, label)
	case reflect.Slice:
		for i := range v.Len() {
			key, name := w.elementName(v, i)
			at := path + "[" + key + "]"
			if v.Index(i).Kind() != reflect.Struct {
				w.say(at, join(label, name), fmt.Sprint(v.Index(i).Interface()))
				continue
			}
			whole := strings.TrimSpace(label + " " + name)
			w.out = append(w.out, fieldText{path: at, label: whole, text: "there", element: true})
			w.structure(v.Index(i), at, whole)
		}
	case reflect.Map:
		for _, k := range slices.SortedFunc(slices.Values(v.MapKeys()), func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) }) {
			w.say(path+"."+k.String(), join(label, plainName(k.String())), fmt.Sprint(v.MapIndex(k).Interface()))
		}
	case reflect.Bool:
		if v.Bool() {
			w.say(path, label, "yes")
		}
	case reflect.Int:
		if n := v.Int(); n != 0 {
			switch tag {
			case "turns":
				w.say(path, label, strconv.FormatInt(90*n, 10)+"°")
			case "width", "height", "size":
				w.say(path, label, unit.Exact(unit.Length, float64(n)/geom.PerMM))
			default:
				w.say(path, label, strconv.FormatInt(n, 10))
			}
		}
	case reflect.Float64:
		w.say(path, label, strconv.FormatFloat(v.Float(), 'f', -1, 64))
	case reflect.String:
		w.say(path, label, v.String())
	default:
		if !v.IsZero() {
			w.say(path, label, fmt.Sprint(v.Interface()))
		}
	}
}

// elementName tells an element of a list by what it is called, or counted.
func (w *words) elementName(v reflect.Value, i int) (key, name string) {
	count := strconv.Itoa(i + 1)
	switch x := v.Index(i).Interface().(type) {
	case schematic.View:
		if v.Len() == 1 {
			return x.Key, ""
		}
		return x.Key, count
	case schematic.Setting:
		// Names tell settings apart: a part of another origin has another ID.
		name := strings.TrimSpace(w.nameOf(x.Part) + " " + x.Item)
		return w.meaning(x.Part) + " " + x.Item, name
	case schematic.Node:
		return w.meaning(x.ID), x.Name
	case schematic.Segment:
		return w.meaning(x.ID), w.nameOf(x.ID)
	case schematic.Pin:
		return x.Name, x.Name
	}
	if e := v.Index(i); e.Kind() == reflect.Struct {
		if n := e.FieldByName("Name"); n.IsValid() && n.Kind() == reflect.String && n.String() != "" {
			return n.String() + "#" + strconv.Itoa(i), n.String()
		}
	}
	return count, count
}

func (w *words) pin(path, label string, part schematic.ID, pin string) {
	if part != (schematic.ID{}) {
		w.out = append(w.out, fieldText{path: path, label: label, text: w.nameOf(part) + " pin " + pin, key: w.meaning(part) + " " + pin})
	}
}

// meaning is the ID a reference stands for in both documents.
func (w *words) meaning(id schematic.ID) string {
	if other, ok := w.same[id]; ok {
		id = other
	}
	return id.String()
}

// nameOf returns how people call what an ID names.
func (w *words) nameOf(id schematic.ID) string {
	if w.name == nil {
		w.name = map[schematic.ID]string{}
		for it := range w.doc.All() {
			w.name[it.Key().ID] = callName(it)
			l, ok := it.(*schematic.Loom)
			if !ok {
				continue
			}
			for _, n := range l.Nodes {
				w.name[n.ID] = n.Name
			}
			for _, s := range l.Segments {
				if s.Name == "" {
					s.Name = w.name[s.From] + " to " + w.name[s.To]
				}
				w.name[s.ID] = s.Name
			}
		}
	}
	if n := w.name[id]; n != "" {
		return n
	}
	return "something that is gone"
}

// param names a value of a part as its kind does.
func (w *words) param(name string, v float64) (title, text string) {
	if p, ok := w.item.(*schematic.Part); ok {
		if k := w.doc.KindOf(p); k != nil {
			prm, ok := k.Param(name)
			for i := 0; !ok && i < len(k.Roles); i++ {
				prm, ok = k.Roles[i].Param(name)
			}
			if ok && prm.Title != "" {
				r, n := utf8.DecodeRuneInString(prm.Title)
				title = string(unicode.ToLower(r)) + prm.Title[n:]
				if q, known := unitQuantity(prm.Unit); known {
					return title, unit.Exact(q, v)
				}
				return title, strings.TrimSpace(unit.Exact(unit.Ratio, v) + " " + prm.Unit)
			}
		}
	}
	return plainName(name), measure(name, v)
}

func unitQuantity(u string) (unit.Quantity, bool) {
	q, ok := map[string]unit.Quantity{
		"V": unit.Volt, "A": unit.Amp, "W": unit.Watt, "ohm": unit.Ohm, "mm": unit.Length, "mm2": unit.Area,
		"degC": unit.Temp, "Ah": unit.AmpHour, "ratio": unit.Ratio, "count": unit.Count,
	}[u]
	return q, ok
}

// measure prints a number in the unit that the end of its name says.
func measure(name string, v float64) string {
	for end, q := range map[string]unit.Quantity{
		"_mm": unit.Length, "_c": unit.Temp, "_degc": unit.Temp, "_ohm": unit.Ohm, "_amp": unit.Amp, "_volt": unit.Volt,
		"_watt": unit.Watt, "_mm2": unit.Area, "_ah": unit.AmpHour,
	} {
		if strings.HasSuffix(name, end) {
			return unit.Exact(q, v)
		}
	}
	if name == "duty" {
		return unit.Exact(unit.Percent, v)
	}
	return unit.Exact(unit.Ratio, v)
}

func place(p geom.Point) string {
	x, y := p.MM()
	return unit.Exact(unit.Ratio, x) + ", " + unit.Exact(unit.Length, y)
}

// fieldName is how people call a field of the file; in says inside what it is.
func fieldName(it schematic.Item, in, tag string) string {
	name, ok := map[string]string{
		"kind": "part kind", "label": "what it does", "views": "symbol", "pins": "pin", "values": "value", "mate": "plugged into",
		"number": "number", "part_number": "part number", "loom": "sub-harness", "node": "breakout", "build": "as built", "links": "link",
		"at": "place", "turns": "turned", "mirror": "mirrored", "section": "piece of the symbol", "tag": "place of the label",
		"a": "end A", "b": "end B", "via": "bends", "color": "colour", "length_mm": "length", "slack_mm": "slack", "temp_c": "temperature class",
		"twist": "twisted in", "screen": "screened in", "joint_ohm": "joint resistance", "contact_mm": "contact size",
		"rated_amp": "rated current", "type": "type", "system_volt": "nominal voltage", "ambient_c": "ambient temperature", "limits": "limit",
		"choices": "choice", "nodes": "breakout", "segments": "segment", "holes": "panel hole", "diameter_mm": "diameter", "from_mm": "distance",
		"set": "setting of", "order": "order among its like", "route": "route", "drain": "drain wire", "plug": "cavity plug", "role": "use",
		"view": "symbol it ends at",
	}[tag]
	switch {
	case tag == "name" && in == "":
		switch it.(type) {
		case *schematic.Part, *schematic.Wire, *schematic.Group:
			return "designation"
		}
	case ok:
		return name
	}
	return plainName(tag)
}

func plainName(tag string) string { return strings.ReplaceAll(tag, "_", " ") }
