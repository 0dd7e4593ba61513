package tanks

import (
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// A Rig is one tank, its sender, the wiring, the conditioner and the gauge that
// must tell the truth, read from a file and checked.
type Rig struct {
	File string
	Name string

	Fuel        Fuel
	Tank        Tank
	Mount       geometry.Mount
	Sender      Sender
	Level       *volume.Relation // sender and tank on level ground
	Wired       bool             // the file has [wiring]
	Wiring      gauge.Wiring
	Conditioner gauge.Conditioner
	Gauge       Gauge
	Use         Use
	Fitted      Fitted       // how measures hang together that a fill log found
	NotMeasured []Unmeasured // in the order of the file

	doc *document
	// solid is the tank's shape with the cuts that its variations have in common.
	solid *geometry.Kept
}

// A Fuel is what is in the tank.
type Fuel struct {
	Kind        string
	Density     float64 // kg/m³ at 15 degC; 0 for the usual one of its kind
	Temperature float64 // degC
}

// usual densities of fuels at 15 degC, kg/m³.
var usual = map[string]float64{"petrol": 745, "diesel": 835, "kerosene": 800, "avgas": 720, "ethanol85": 781, "water": 999.1}

// Liquid returns the fuel as it expands.
func (f Fuel) Liquid() volume.Fuel {
	density := f.Density
	if density == 0 {
		density = usual[f.Kind]
	}
	return volume.Fuel{Density: density, Water: f.Kind == "water"}
}

// readFormat checks the first key of every file.
func readFormat(t *table) {
	v, ok := t.get("format")
	switch n, isInt := v.(int64); {
	case !ok:
		t.missing("format", "format = 1 as the first line")
	case !isInt || n != 1:
		t.fail("format", "%s, expected 1", describe(v))
	}
}

// build reads a whole rig.
func build(d *document) (*Rig, error) {
	t := d.root()
	readFormat(t)
	rig := &Rig{File: d.file, doc: d, Wired: t.has("wiring")}
	if d.like != nil {
		rig.solid = d.like.solid
	} else {
		rig.NotMeasured = d.notMeasured()
	}
	rig.Name, _ = t.text("name")
	rig.Fuel = readFuel(t.table("fuel"))
	rig.Mount = readMount(t.table("mount"))
	rig.Wiring = readWiring(t.table("wiring"))
	use, sender, dial := t.table("use"), t.table("sender"), t.table("gauge")
	rig.Use = readUse(use)
	marks := readMarks(dial)
	rig.Conditioner = readConditioner(t.table("conditioner"), len(marks))
	fitted := t.table("fitted")
	rig.Fitted = readFitted(fitted)
	tank := t.table("tank")
	t.done()
	if d.err != nil {
		return nil, d.err
	}
	if !t.has("tank") {
		t.missing("tank", "a [tank] with file = the name of a tank, or [[tank.body]]")
	}
	same := d.like != nil && !d.varies("tank") && !d.varies("mount")
	if same {
		rig.Tank = d.like.Tank
	} else if rig.Tank = readTank(tank, rig.Mount); d.err != nil {
		return nil, d.err
	}
	if !t.has("sender") {
		t.missing("sender", "a [sender] (a tank alone serves the command dip only)")
		return nil, d.err
	}
	rig.Sender = readSender(sender, rig.Tank, rig.Fuel.Liquid().DensityAt(rig.Fuel.Temperature))
	if d.err != nil {
		return nil, d.err
	}
	if rig.Sender.Poured && !rig.Tank.Bare {
		rig.Tank.forgetShape()
	}
	if why := rig.Sender.LevelOnly; why != rig.Tank.LevelOnly && why != "" {
		rig.Tank.LevelOnly = why
	}
	contents := rig.Tank.level()
	if same {
		contents = d.like.Level.Contents
	}
	low, high := rig.Sender.Free()
	level, ok := volume.Relate(contents, rig.Sender.Sender(), low, high, rig.Tank.Full)
	if !ok {
		sender.fail(map[string]string{"arm": "stop_low", "stem": "head", "probe": "head"}[rig.Sender.Kind], "the sender follows the fuel nowhere between its ends, expected one that moves up as the fuel rises")
		return nil, d.err
	}
	rig.Level = level
	if d.like == nil || d.varies("tank.body") {
		rig.solid = &geometry.Kept{Solid: rig.Tank.Shape}
	}
	rig.Gauge = readGauge(dial, marks, rig.Tank, level)
	rig.Conditioner.Needle = rig.Gauge.Needle
	if d.like == nil {
		rig.Fitted.check(fitted, d.measures)
	}
	if d.err != nil {
		return nil, d.err
	}
	return rig, nil
}

var fuels = []string{"petrol", "diesel", "kerosene", "avgas", "ethanol85", "water", "other"}

func readFuel(t *table) Fuel {
	f := Fuel{Kind: t.choice("kind", fuels...)}
	if t.has("density") {
		f.Density = t.positive("density", quantity.Density)
	} else if f.Kind == "other" {
		t.missing("density", "the density of the fuel at 15 degC such as "+quantity.Density.Hint)
	}
	f.Temperature = t.or("temperature", quantity.Temperature, 15)
	if f.Temperature < -60 || f.Temperature > 100 {
		t.fail("temperature", "%g degC, expected -60 to 100", f.Temperature)
	}
	t.done()
	return f
}
