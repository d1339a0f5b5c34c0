package check

import "loomwright/calc/tables"

// The names of the limits about battery and alternator.
const (
	limitKeyOff    = "key_off_amp"
	limitEmptying  = "battery_discharge_amp"
	limitIdleShare = "alternator_idle_ratio"
	limitHotShare  = "alternator_hot_ratio"
)

func chargeLimits() []Limit {
	return []Limit{
		{Name: limitKeyOff, Title: "current of the parked vehicle", Unit: "A", value: rule(tables.KeyOffAmps())},
		{Name: limitEmptying, Title: "current out of the battery that counts as emptying it while the engine runs", Unit: "A",
			value: fixed(0.1, practice("less is leakage"))},
		{Name: limitIdleShare, Title: "part of its rating that an alternator of unknown output gives at idle", Unit: "ratio",
			value: fixed(0.25, tables.Source{Title: "rule of thumb for alternators", Place: "idle 25 to 50 % of the rating", FromMemory: true})},
		{Name: limitHotShare, Title: "part of its rating that an alternator of unknown output gives hot", Unit: "ratio",
			value: fixed(0.70, tables.Source{Title: "rule of thumb for alternators", Place: "hot 70 to 85 % of the rating", FromMemory: true})},
	}
}
