package netlist

import (
	"loomwright/calc/tables"
	"loomwright/schematic"
)

// WarmingChoice is the name in [schematic.Info].Choices that says whether the
// current warms the wires; its options are WarmingOn, the default, and
// WarmingOff.
const (
	WarmingChoice = "wire_temperature"
	WarmingOn     = "air and current"
	WarmingOff    = "air alone"
)

// LoadedLimit is the name in [schematic.Info].Limits of the current from which
// a wire warms its neighbours; DefaultLoadedAmp, in A, stands where the
// document gives none (common practice, no source).
const (
	LoadedLimit      = "loaded_amp"
	DefaultLoadedAmp = 0.5
)

// CrankLimit is the name in [schematic.Info].Limits of the longest time the
// starter turns in one go; DefaultCrankSecond, in s, stands where the document
// gives none (a cold cranking test takes 30 s at −18 °C, seen second-hand).
const (
	CrankLimit         = "crank_s"
	DefaultCrankSecond = 30
)

// BundleSets are the published factors for wires lying together, the default
// first; BundleChoice is the name in [schematic.Info].Choices that picks one by
// the title of its source.
var BundleSets = [...]tables.BundleSet{tables.BundleCFR183, tables.BundleISO13297, tables.BundleIEC60364, tables.BundleUSBuilding}

const BundleChoice = "bundle_factors"

// BundleSetOf returns the factors a document chooses.
func BundleSetOf(i *schematic.Info) tables.BundleSet {
	for _, set := range BundleSets {
		if i.Choices[BundleChoice] == set.Source().Title {
			return set
		}
	}
	return BundleSets[0]
}

// AltitudeLimit is the name in [schematic.Info].Limits of the height above the
// sea, in m, for which wires are rated; 0, the default, leaves thin air out.
const AltitudeLimit = "altitude_m"

// AltitudeOf returns the height a document gives, m.
func AltitudeOf(i *schematic.Info) float64 { return max(0, i.Limits[AltitudeLimit]) }
