package tanks

import (
	"math"
	"strings"
	"testing"
)

// withSender puts another sender into the sound rig; the tank is a box of 600 by
// 300 by 250 mm.
func withSender(sender string) string {
	i, j := strings.Index(sound, "[sender]"), strings.Index(sound, "[wiring]")
	return sound[:i] + sender + "\n" + sound[j:]
}

const ohmLine = "[sender.resistance]\nlow = 240\nhigh = 33\n"

// TestArmsAsMeasured: stops by angle and by height, everything from the flange,
// with a neck, a bent wire, a lean.
func TestArmsAsMeasured(t *testing.T) {
	deg := func(rad float64) float64 { return rad * 180 / math.Pi }
	sin10, cos10 := math.Sincos(math.Pi / 18)
	for _, c := range []struct {
		name, sender string
		arm          float64
		pivot        [3]float64
		low, high    float64
	}{
		{"heights", "[sender]\npivot = [310, 150, 195]\narm = 200\nlow_height = 45\nhigh_height = 215\n" + ohmLine,
			200, [3]float64{310, 150, 195}, -deg(math.Asin(150. / 200)), deg(math.Asin(20. / 200))},
		{"height and angle", "[sender]\npivot = [310, 150, 195]\narm = 200\nlow_height = \"45 mm\"\nstop_high = 8\n" + ohmLine,
			200, [3]float64{310, 150, 195}, -deg(math.Asin(150. / 200)), 8},
		{"flange, reach and drop", "[sender]\nheading = \"forward\"\nstop_high = 10\n[sender.flange]\nat = [300, 150, 250]\ndepth = 60\nreach = 120\ndrop = 220\n" + ohmLine,
			200, [3]float64{300, 150, 190}, deg(math.Atan2(-160, 120)), 10},
		{"neck and gasket", "[sender]\nheading = \"left\"\nstop_low = -40\n[sender.flange]\nat = [300, 150, 250]\ndepth = 60\nahead = 10\nneck = 12\ngasket = 3\nreach = 110\ndrop = 60\nstop = \"high\"\n" + ohmLine,
			100, [3]float64{300, 160, 205}, -40, 0},
		{"by drop", "[sender]\narm = 200\n[sender.flange]\nat = [300, 150, 250]\ndepth = 60\n[sender.resistance]\npoints_by_drop = [[30, 33], [120, 140], [200, 240]]\n",
			200, [3]float64{300, 150, 190}, -deg(math.Asin(140. / 200)), deg(math.Asin(30. / 200))},
		{"leaning flange", "[sender]\narm = 200\nstop_low = -55\nstop_high = 5\n[sender.flange]\nat = [300, 150, 250]\ndepth = 60\nlean = 10\n" + ohmLine,
			200, [3]float64{300 - 60*sin10, 150, 250 - 60*cos10}, -55, 5},
		{"leaning flange, measured on it", "[sender]\nstop_high = 5\n[sender.flange]\nat = [300, 150, 250]\ndepth = 60\nlean = 10\nreach = 120\ndrop = 220\n" + ohmLine,
			200, [3]float64{300 - 60*sin10, 150, 250 - 60*cos10}, deg(math.Atan2(-160, 120)) - 10, 5},
	} {
		rig, err := Load(write(t, withSender(c.sender)), nil)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		a := rig.Sender.Arm
		for i, got := range []float64{a.Length - c.arm, a.Pivot.X - c.pivot[0], a.Pivot.Y - c.pivot[1], a.Pivot.Z - c.pivot[2], a.Low - c.low, a.High - c.high} {
			if math.Abs(got) > 1e-9 {
				t.Errorf("%s: figure %d off by %g: arm %g, pivot %v, stops %g° and %g°", c.name, i, got, a.Length, a.Pivot, a.Low, a.High)
			}
		}
	}
}

// TestFloatsAsMeasured: a mass, or how deep it sits; a torque, or the weight that
// moves it.
func TestFloatsAsMeasured(t *testing.T) {
	arm := "[sender]\npivot = [310, 150, 195]\narm = 200\nstop_low = -40\nstop_high = 5\n" + ohmLine + "[sender.float]\n"
	for _, c := range []struct {
		name, float string
		load, drag  float64
	}{
		{"mass", "shape = \"sphere\"\ndiameter = 40\nmass = 14\narm_mass = 9\nfriction = 0.6\n", 18.5, 0.6},
		{"draught", "shape = \"upright\"\narea = \"12 cm2\"\nheight = 30\ndraft = \"14 mm\"\n", 1200 * 14 * 745e-6, 0},
		{"half a cylinder", "shape = \"cylinder\"\ndiameter = 40\nlength = 50\ndraft = 20\n", math.Pi / 4 * 1600 * 50 / 2 * 745e-6, 0},
		{"weight", "shape = \"sphere\"\ndiameter = 40\nmass = \"0.5 oz\"\nfriction = \"3 g\"\n", 14.17476, 3e-3 * 9.80665 * 200},
	} {
		rig, err := Load(write(t, withSender(arm+c.float)), nil)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if b := rig.Sender.Arm.Buoy; math.Abs(b.Load-c.load) > 1e-5 || math.Abs(b.Drag-c.drag) > 1e-9 || b.Density != 745 {
			t.Errorf("%s: load %g g, drag %g N.mm, density %g; expected %g and %g", c.name, b.Load, b.Drag, b.Density, c.load, c.drag)
		}
	}
	// A warm fuel is lighter: 745 kg/m³ at 15 degC is 745·0.969413 at 40.
	hot := strings.Replace(withSender(arm+"shape = \"sphere\"\ndiameter = 40\nmass = 14\n"), "[[tank.body]]", "[fuel]\ntemperature = 40\n[[tank.body]]", 1)
	rig, err := Load(write(t, hot), nil)
	if err != nil || math.Abs(rig.Sender.Arm.Buoy.Density-745*0.969413) > 1e-3 {
		t.Errorf("hot fuel: %v, %+v", err, rig)
	}
}

// TestOtherSenders reads stem, probe, table and poured.
func TestOtherSenders(t *testing.T) {
	for _, c := range []struct {
		name, sender string
		low, high    float64 // litres at the ends
	}{
		{"stem", "[sender]\nkind = \"stem\"\nfoot = [300, 150, 20]\nhead = [300, 150, 220]\npitch = 10\n" + ohmLine, 20, 220},
		{"stem with a float", "[sender]\nkind = \"stem\"\nfoot = [300, 150, 20]\nhead = [300, 150, 220]\n" + ohmLine + "[sender.float]\nshape = \"upright\"\narea = \"16 cm2\"\nheight = 30\ndraft = 10\n", 15, 215},
		{"probe", "[sender]\nkind = \"probe\"\nfoot = [300, 150, 10]\nhead = [300, 150, 240]\n" + ohmLine, 10, 240},
		{"table", "[sender]\nkind = \"table\"\n[sender.resistance]\npoints = [[25, 240], [\"4 in\", 150], [230, 33]]\n", 25, 230},
	} {
		rig, err := Load(write(t, withSender(c.sender)), nil)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		low, high := rig.Level.Reach()
		// The box has edges of 30 mm along x, which a level of 25 mm passes.
		if at := rig.Tank.level(); math.Abs(low-at.Litres(c.low)) > 1e-9 || math.Abs(high-at.Litres(c.high)) > 1e-9 {
			t.Errorf("%s: from %g to %g L, expected %g to %g", c.name, low, high, at.Litres(c.low), at.Litres(c.high))
		}
	}
	poured := "format = 1\n[tank]\ncapacity = \"12 US gal\"\n[tank.fill]\nvolume = 44\n[tank.pickup]\nunusable = 1.5\n[sender]\nkind = \"poured\"\n" +
		"[sender.resistance]\npoints = [[3, 240], [20, \"140 ohm\"], [42, 33]]\n"
	rig, err := Load(write(t, poured), nil)
	if err != nil {
		t.Fatal(err)
	}
	if low, high := rig.Level.Reach(); math.Abs(low-3) > 1e-12 || math.Abs(high-42) > 1e-12 || math.Abs(rig.Level.Ohms(11.5)-190) > 1e-9 {
		t.Errorf("from %g to %g L, %g ohm at 11.5 L", low, high, rig.Level.Ohms(11.5))
	}
}

func TestSendersAreRefused(t *testing.T) {
	arm := "[sender]\npivot = [310, 150, 195]\narm = 200\nstop_low = -40\nstop_high = 5\n"
	flange := "[sender]\nstop_high = 5\n[sender.flange]\nat = [300, 150, 250]\ndepth = 60\n"
	for _, c := range []struct{ sender, want string }{
		{"[sender]\nkind = \"lever\"\n", `:18: sender.kind: "lever", expected "arm", "stem", "probe", "table" or "poured"`},
		{arm + ohmLine + "[sender.float]\nshape = \"sphere\"\ndiameter = 30\nmass = 40\n", `:25: sender.float: the float sinks: it and half the arm weigh 40 g, but wholly under it carries 10.53 g, expected less mass or a larger float`},
		{arm + ohmLine + "[sender.float]\nshape = \"sphere\"\ndiameter = 30\n", `:25: sender.float.mass: missing, expected a mass such as 14, "14 g" or "0.5 oz", or draft = how deep it sits in fuel`},
		{arm + ohmLine + "[sender.float]\nshape = \"sphere\"\ndiameter = 30\nmass = 5\ndraft = 10\n", `:29: sender.float.draft: given as well as mass, expected one of the two`},
		{arm + "low_height = 40\n" + ohmLine, `:22: sender.low_height: given as well as stop_low, expected one of the two`},
		{"[sender]\npivot = [310, 150, 195]\narm = 100\nlow_height = 40\nstop_high = 5\n" + ohmLine, `:20: sender.low_height: 40 mm is 155 mm from the pivot's height of 195 mm, expected no more than the arm, 100 mm`},
		{flange + ohmLine, `:19: sender.flange.reach: missing, expected reach and drop of the float centre at one stop, or arm = its distance from the pivot`},
		{flange + "reach = 120\n" + ohmLine, `:19: sender.flange.reach: missing, expected reach and drop of the float centre at one stop, or arm = its distance from the pivot`},
		{"[sender]\narm = 80\n[sender.flange]\nat = [300, 150, 250]\ndepth = 60\n[sender.resistance]\npoints_by_drop = [[30, 33], [200, 240]]\n",
			`:23: sender.resistance.points_by_drop[1]: 200 mm below the flange is 140 mm from the pivot's depth of 60 mm, expected no more than the arm, 80 mm`},
		{arm + "[sender.resistance]\npoints_by_drop = [[30, 33], [200, 240]]\n", `:23: sender.resistance.points_by_drop: given without [sender.flange], expected the flange from which drops are measured`},
		{"[sender]\nkind = \"stem\"\nfoot = [300, 150, 20]\nhead = [300, 150, 320]\n" + ohmLine, `:20: sender.head: (300, 150, 320) mm is outside the tank, expected it inside`},
		{"[sender]\nkind = \"stem\"\nfoot = [300, 150, 20]\nhead = [300, 150, 220]\npitch = 300\n" + ohmLine, `:21: sender.pitch: contacts 300 mm apart over 200 mm, expected two or more`},
		{"[sender]\nkind = \"probe\"\nfoot = [300, 150, 20]\nhead = [300, 150, 20]\n" + ohmLine, `:20: sender.head: foot and head in one place, expected them apart`},
		{"[sender]\nkind = \"probe\"\nfoot = [300, 150, 220]\nhead = [300, 150, 20]\n" + ohmLine, `:20: sender.head: the sender follows the fuel nowhere between its ends, expected one that moves up as the fuel rises`},
		{"[sender]\nkind = \"table\"\n[sender.resistance]\nlow = 1\n", `:19: sender.resistance.points: missing, expected points = [[height, ohm], …]`},
	} {
		refused(t, write(t, withSender(c.sender)), c.sender, c.want)
	}
	bare := "format = 1\n[tank]\ncapacity = 40\n"
	for _, c := range []struct{ text, want string }{
		{bare + arm + ohmLine, `:4: sender.kind: "arm" in a tank known by its capacity alone, expected "poured", or [[tank.body]] for its shape`},
		{bare + "[tank.fill]\nheight = 200\n" + arm + ohmLine, `:5: tank.fill.height: given for a tank known by its capacity alone, expected volume or fraction`},
		{bare + "[tank.pickup]\nat = [0, 0, 5]\n" + arm + ohmLine, `:5: tank.pickup.at: given for a tank known by its capacity alone, expected unusable = a volume`},
		{"format = 1\n[tank]\ncapacity = -3\n" + arm + ohmLine, `:3: tank.capacity: -3 L, expected more than 0`},
	} {
		refused(t, write(t, c.text), c.text, c.want)
	}
}
