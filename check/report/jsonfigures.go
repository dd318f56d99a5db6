package report

import (
	"bytes"

	"hame/check/figures"
	"hame/check/wording"
	"hame/lang/harness"
)

// marshal writes a value without the escapes that only web pages need.
func marshal(value any) ([]byte, error) {
	var b bytes.Buffer
	err := wording.JSON(&b, value)
	return bytes.TrimSpace(b.Bytes()), err
}

type jsonWire struct {
	Name          string         `json:"name"`
	From          word           `json:"from"` // null where the end could not be bound
	To            word           `json:"to"`
	AreaMM2       number         `json:"area_mm2"`
	LengthM       number         `json:"length_m"`
	ResistanceOhm number         `json:"resistance_ohm"`
	Side          word           `json:"side"`
	AmpacityA     number         `json:"ampacity_a"`
	AmbientC      number         `json:"ambient_c"`
	TemperatureC  number         `json:"temperature_c"`
	WorstA        number         `json:"worst_a"`
	Worst         *jsonPosition  `json:"worst"`
	ProtectedBy   []string       `json:"protected_by"`
	UnprotectedM  number         `json:"unprotected_m"`
	Bundles       []string       `json:"bundles"`
	Existing      bool           `json:"existing"`
	Modes         []jsonWireMode `json:"modes"`
}

type jsonPosition struct {
	Key    string   `json:"key"`
	Engine string   `json:"engine"`
	Closed []string `json:"closed"`
	Corner string   `json:"corner"`
	Bound  bool     `json:"bound,omitempty"`
}

type jsonWireMode struct {
	Mode     string `json:"mode"`
	CurrentA number `json:"current_a"`
	DropV    number `json:"drop_v"`
}

type jsonDevice struct {
	Name     string           `json:"name"`
	Family   string           `json:"family"`
	Kind     string           `json:"kind"`
	Existing bool             `json:"existing"`
	WorstA   number           `json:"worst_a"`
	Worst    *jsonPosition    `json:"worst"`
	Modes    []jsonDeviceMode `json:"modes"`
}

type jsonDeviceMode struct {
	Mode     string `json:"mode"`
	Volts    number `json:"volts"`
	CurrentA number `json:"current_a"`
	On       bool   `json:"on"`
}

type jsonMode struct {
	Name        string `json:"name"`
	SupplyA     number `json:"supply_a"`
	BatteryA    number `json:"battery_a"`
	HoursToFlat number `json:"hours_to_flat"`
}

type jsonCoverage struct {
	SwitchPositions float64 `json:"switch_positions"`
	Method          word    `json:"method"`
	Shorted         int     `json:"shorted,omitempty"`
}

// jsonWires are all wires of the harness, with what is known of them.
func jsonWires(r Run) []jsonWire {
	list := []jsonWire{}
	if r.Harness == nil {
		return list
	}
	known := map[*harness.Wire]*figures.Wire{}
	if r.Figures != nil {
		for _, w := range r.Figures.Wires {
			known[w.Wire] = w
		}
	}
	for _, w := range r.Harness.Wires {
		list = append(list, jsonWireOf(w, known[w]))
	}
	return list
}

func jsonWireOf(w *harness.Wire, f *figures.Wire) jsonWire {
	out := jsonWire{
		Name: w.Name, From: endOf(w.Ends[0]), To: endOf(w.Ends[1]), AreaMM2: positive(w.AreaMM2),
		ProtectedBy: []string{}, Bundles: []string{}, Existing: w.Existing, Modes: []jsonWireMode{},
	}
	if w.HasLength {
		out.LengthM = number{&w.LengthM}
	}
	for _, b := range w.Route {
		out.Bundles = append(out.Bundles, b.Name)
	}
	if f != nil {
		out.fill(f)
	}
	return out
}

func (out *jsonWire) fill(f *figures.Wire) {
	out.ResistanceOhm, out.Side = number{f.ResistanceOhm}, word(f.Side)
	out.AmpacityA, out.AmbientC = number{f.AmpacityA()}, number{f.AmbientC}
	out.TemperatureC, out.WorstA = number{f.TemperatureC}, number{f.WorstA}
	out.Worst, out.UnprotectedM = jsonPositionOf(f.Worst), number{f.UnprotectedM}
	out.ProtectedBy = append(out.ProtectedBy, f.ProtectedBy...)
	for _, m := range f.Modes {
		out.Modes = append(out.Modes, jsonWireMode{m.Mode, number{m.CurrentA}, number{m.DropV}})
	}
}

func jsonPositionOf(p *figures.Position) *jsonPosition {
	if p == nil {
		return nil
	}
	return &jsonPosition{p.Key, p.Engine, append([]string{}, p.Closed...), p.Corner, p.Bound}
}

// jsonDevices are all devices of the harness, with what is known of them.
func jsonDevices(r Run) []jsonDevice {
	list := []jsonDevice{}
	if r.Harness == nil {
		return list
	}
	known := map[*harness.Device]*figures.Device{}
	if r.Figures != nil {
		for _, d := range r.Figures.Devices {
			known[d.Device] = d
		}
	}
	for _, d := range r.Harness.Devices {
		list = append(list, jsonDeviceOf(d, known[d]))
	}
	return list
}

func jsonDeviceOf(d *harness.Device, f *figures.Device) jsonDevice {
	out := jsonDevice{
		Name: d.Name, Family: string(d.Kind.Family), Kind: d.Kind.Name,
		Existing: d.Existing, Modes: []jsonDeviceMode{},
	}
	if f == nil {
		return out
	}
	out.WorstA, out.Worst = number{f.WorstA}, jsonPositionOf(f.Worst)
	for _, m := range f.Modes {
		out.Modes = append(out.Modes, jsonDeviceMode{m.Mode, number{m.Volts}, number{m.CurrentA}, m.On})
	}
	return out
}

// jsonModes are all modes of the harness, the implied ones too.
func jsonModes(r Run) []jsonMode {
	list := []jsonMode{}
	if r.Harness == nil {
		return list
	}
	known := map[*harness.Mode]*figures.Mode{}
	if r.Figures != nil {
		for _, m := range r.Figures.Modes {
			known[m.Mode] = m
		}
	}
	for _, m := range r.Harness.Modes {
		out := jsonMode{Name: m.Name}
		if f := known[m]; f != nil {
			out.SupplyA, out.BatteryA, out.HoursToFlat = number{f.SupplyA}, number{f.BatteryA}, number{f.HoursToFlat}
		}
		list = append(list, out)
	}
	return list
}

func endOf(e harness.End) word {
	if e.Terminal == nil && !e.Capped {
		return ""
	}
	return word(e.Name())
}
