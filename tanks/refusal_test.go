package tanks

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const sound = `format = 1
name = "Test rig"

[[tank.body]]
shape = "box"
length = 600
width = 300
height = 250
radius = 30

[tank.fill]
height = 240

[tank.pickup]
at = [300, 150, 8]

[sender]
kind = "arm"
pivot = [310, 150, 195]
arm = 200
heading = "forward"
stop_low = -48
stop_high = 8

[sender.resistance]
low = 240
high = 33

[wiring]
length = "4.2 m"
size = "18 AWG"
ground = 0.3

[conditioner]
points = 5
stored = [[238, 0], [36, 1]]

[gauge]
empty = "3 L"
full = "1 L"
marks = [
  { label = "E", share = 0 },
  { label = "F", share = 1 },
]
`

// write puts a rig file into a folder of its own.
func write(t testing.TB, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "rig.toml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestSoundRigLoads(t *testing.T) {
	if _, err := Load(write(t, sound), nil); err != nil {
		t.Fatal(err)
	}
}

// TestRefusals changes one thing in a sound rig and compares the whole error,
// file name apart.
func TestRefusals(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"length = 600", "length = = 600", `:6: not TOML: expected value but found '=' instead`},
		{"format = 1", "format = 2", `:1: format: 2, expected 1`},
		{"format = 1\n", "", `:1: format: missing, expected format = 1 as the first line`},
		{"length = 600", "length = 24,5", `:6: not TOML: expected a top-level item to end with a newline, comment, or EOF, but got ',' instead (a decimal comma? write a decimal point)`},
		{"length = 600", "length = 24 in", `:6: not TOML: expected a top-level item to end with a newline, comment, or EOF, but got 'i' instead (a value with a unit or a fraction stands in quotes, such as "11 1/2 in")`},
		{"[[tank.body]]", "[tank.body]", `:4: tank.body: a table, expected a list: two brackets, [[tank.body]]`},
		{"radius = 30", "displace = true\nwall = 2", `:10: tank.body[0].wall: given for a body that displaces fuel, expected none: fuel touches its outside`},
		{"stop_high = 8", "stop_high = 508", `:23: sender.stop_high: 508° is more than a whole turn above stop_low = -48°, expected the angle at the stop on high fuel`},
		{"length = 600", "length = -600", `:6: tank.body[0].length: -600 mm, expected a length above 0 and below 1e+06 mm`},
		{"length = 600", "length = nan", `:6: tank.body[0].length: NaN is not a finite number, expected a length such as 620, "24 3/8 in", "2 ft 3 in" or "61 cm"`},
		{"length = 600", `length = "24,5 in"`, `:6: tank.body[0].length: "24,5 in" has a comma; write a decimal point: "24.5 in", expected a length such as 620, "24 3/8 in", "2 ft 3 in" or "61 cm"`},
		{"length = 600", `length = "600 kg"`, `:6: tank.body[0].length: "600 kg" the unit "kg" is that of a mass, expected a length such as 620, "24 3/8 in", "2 ft 3 in" or "61 cm"`},
		{"length = 600", "length = true", `:6: tank.body[0].length: true, expected a length such as 620, "24 3/8 in", "2 ft 3 in" or "61 cm"`},
		{"length = 600", "lenght = 600", `:6: tank.body[0].lenght: not a known key, expected perhaps "length"`},
		{"length = 600\n", "", `:4: tank.body[0].length: missing, expected a length such as 620, "24 3/8 in", "2 ft 3 in" or "61 cm"`},
		{"points = 5", "inputs = [-5, 10]", `:35: conditioner.inputs[0]: -5 ohm, expected 0 or more`},
		{"arm = 200", "arm = \"200 ± -3 mm\"", `:20: sender.arm: "200 ± -3 mm" has a negative uncertainty, expected a length such as 620, "24 3/8 in", "2 ft 3 in" or "61 cm"`},
		{"label = \"F\"", "label = \"E\"", `:43: gauge.marks[1].label: "E" names two marks, expected every label once`},
		{"low = 240\nhigh = 33", "points = []", `:26: sender.resistance.points: an empty list, expected lists of 2 numbers`},
		{"low = 240\nhigh = 33", "points = [[-48, 240], [8, -1]]", `:26: sender.resistance.points: -1 ohm, expected 0 or more`},
		{"ground = 0.3", "ground = -0.3", `:32: wiring.ground: -0.3 ohm, expected 0 or more`},
		{"[tank.fill]", "[tank]\nscale = 3\n[tank.fill]", `:12: tank.scale: 3, expected 1 or nearly so: by what factor the tank holds more than its sizes say`},
		{"[gauge]", "[fitted]\nmeasures = [\"sender.arm\"]\ncorrelation = [[1], [0.5, 1]]\n[gauge]", `:40: fitted.correlation: 2 rows for 1 measures, expected one for each`},
		{"[gauge]", "[fitted]\nmeasures = [\"sender.arm\", \"sender.pivot[2]\"]\ncorrelation = [[1], [1.5, 1]]\n[gauge]", `:40: fitted.correlation[1]: 1.5, expected -1 to 1, and 1 on the diagonal`},
		{"[gauge]", "[fitted]\nmeasures = [\"sender.arm\", \"sender.pivot[2]\"]\ncorrelation = [[1], [0.5]]\n[gauge]", `:40: fitted.correlation[1]: a list of 1, expected a list of 2, the row up to the diagonal`},
		{"[gauge]", "[fitted]\nmeasures = [\"sender.arm\", \"sender.pivot[2]\", \"wiring.ground\"]\ncorrelation = [[1], [0.9, 1], [-0.9, 0.9, 1]]\n[gauge]", `:40: fitted.correlation: no measures hang together so, expected the numbers that fit wrote`},
		{"[gauge]", "[fitted]\nmeasures = [\"sender.leg\"]\ncorrelation = [[1]]\n[gauge]", `:39: fitted.measures: element 0, "sender.leg", is no measure of this rig, expected one that it states`},
		{"[gauge]", "[fitted]\nmeasures = [5]\ncorrelation = [[1]]\n[gauge]", `:39: fitted.measures: element 0 is 5, expected a key such as "sender.arm", once`},
		{"radius = 30", "raduis = 30", `:9: tank.body[0].raduis: not a known key, expected perhaps "radius"`},
		{"radius = 30", "Radius = 30", `:9: tank.body[0].Radius: not a known key, expected perhaps "radius"`},
		{"radius = 30", "radius = 130", `:9: tank.body[0].radius: 130 mm, expected at most half the smaller side across, 125 mm`},
		{`shape = "box"`, `shape = "crate"`, `:5: tank.body[0].shape: "crate", expected "box", "cylinder", "oval", "cone", "sphere", "ellipsoid", "outline", "stations", "mesh" or "dip"`},
		{"radius = 30", "wall = 130", `:9: tank.body[0].wall: 130 mm, expected 0 or more and less than half the height 250 mm`},
		{"height = 240", "height = -5", `:12: tank.fill.height: the tank would be full with 0 L, expected a filler above the tank's bottom`},
		{"height = 240", "fraction = 1.2", `:12: tank.fill.fraction: 1.2, expected above 0 and at most 1`},
		{"height = 240", "volume = 60", `:12: tank.fill.volume: 60 L, expected at most the capacity, 44.54 L`},
		{"height = 240", "volume = 40\nfraction = 0.9", `:12: tank.fill.volume: given beside another way to say it, expected one of height, at, fraction or volume`},
		{"height = 240", "height = 240\nnose_up = 75", `:13: tank.fill.nose_up: 75°, expected less than 60°`},
		{"height = 240", "volume = 40\nleft_up = 4", `:12: tank.fill.volume: given with the attitude in which the tank is filled, expected height or at: litres do not tell where the mouth is`},
		{"at = [300, 150, 8]", "at = [300, 150, -8]", `:15: tank.pickup.at: (300, 150, -8) mm is outside the tank, expected the draw point inside it`},
		{"at = [300, 150, 8]", "at = [300, 150]", `:15: tank.pickup.at: a list of 2, expected a list of 3 numbers`},
		{"at = [300, 150, 8]", "at = [300, 150, 245]", `:15: tank.pickup.at: 43.75 L cannot be drawn, but the tank is full with 42.91 L, expected a lower pickup`},
		{"pivot = [310, 150, 195]", "pivot = [310, 150, 295]", `:19: sender.pivot: (310, 150, 295) mm is outside the tank, expected the axle of the arm inside it`},
		{"stop_low = -48", "stop_low = 48", `:22: sender.stop_low: 48° is not below stop_high = 8°, expected the stop on low fuel to be the smaller angle`},
		{"arm = 200", "arm = 0", `:20: sender.arm: 0 mm, expected more than 0`},
		{"arm = 200", "arm = 2000", `:20: sender.arm: the float centre is inside the tank at no angle from -48° to 8°, expected an arm that swings in the tank: look at pivot, arm and heading`},
		{`kind = "arm"`, `kind = "magnet"`, `:18: sender.kind: "magnet", expected "arm", "stem", "probe", "table" or "poured"`},
		{`heading = "forward"`, `heading = "north"`, `:21: sender.heading: "north", expected forward, left, aft or right, or degrees from forward towards left`},
		{"low = 240\nhigh = 33", "points = [[-48, 240], [-20, 100], [8, 133]]", `:26: sender.resistance.points: 133 ohm follows 100 ohm, expected ohms that all rise or all fall`},
		{"low = 240\nhigh = 33", "points = [[-48, 240], [-60, 100], [8, 33]]", `:26: sender.resistance.points: -60 follows -48, expected a rising order`},
		{"low = 240\nhigh = 33", "points = [[-40, 240], [8, 33]]", `:25: sender.resistance: resistances are given from -40° to 8°, expected them to reach both stops, -48° and 8°`},
		{"low = 240\n", "low = 33\n", `:27: sender.resistance.high: 33 ohm follows 33 ohm, expected ohms that all rise or all fall`},
		{"ground = 0.3", `ground = "0.3 volt"`, `:32: wiring.ground: "0.3 volt" the unit "volt" is that of a voltage, expected a resistance such as 240, "0.3 ohm", "0.3 Ω" or "1.2 kohm"`},
		{`size = "18 AWG"`, `size = 18`, `:31: wiring.size: 18, expected a size with its unit such as "18 AWG" or "1.0 mm2"`},
		{`size = "18 AWG"`, `size = "99 AWG"`, `:31: wiring.size: AWG 99, expected 0 to 40`},
		{"points = 5", "points = 1", `:35: conditioner.points: 1, expected a whole number from 2 to 1000`},
		{"points = 5", "pull_up = 220", `:35: conditioner.pull_up: given without law = "divider", expected it with a divider only`},
		{"points = 5", "supply = \"5 ohm\"", `:35: conditioner.supply: "5 ohm" the unit "ohm" is that of a resistance, expected a voltage such as 5, "3.3 V" or "1100 mV"`},
		{"points = 5", "supply = 5000", `:35: conditioner.supply: 5000 V, expected at most 100`},
		{"points = 5", "adc_bits = 10", `:35: conditioner.adc_bits: given without law = "divider", expected it with a divider only`},
		{"points = 5", "law = \"divider\"\npull_up = 220\nadc_bits = 2", `:37: conditioner.adc_bits: 2, expected a whole number from 4 to 24`},
		{"points = 5", "law = \"divider\"\npull_up = 220\nreference = 3.3", `:37: conditioner.reference: given without adc_bits, expected both: the reference is the voltage at which the converter is full`},
		{"points = 5", "law = \"divider\"\npull_up = 220\nadc_bits = 10\nreference = 3.3", `:34: conditioner.supply: missing, expected the voltage above the pull-up beside a reference, such as 5, "3.3 V" or "1100 mV"`},
		{"points = 5", "law = \"divider\"\npull_up = 220\npull_up_tolerance = 5", `:37: conditioner.pull_up_tolerance: 5, expected 0 or more and less than 1 (or a percentage)`},
		{"points = 5", "input_range = [300, 10]", `:35: conditioner.input_range: 300 to 10 ohm, expected the least input and then the greatest`},
		{"points = 5", "inputs = [20]", `:35: conditioner.inputs: 1 inputs, expected 2 or more`},
		{"points = 5", "inputs = [20, 60, 40]", `:35: conditioner.inputs[2]: 40 ohm follows 60 ohm, expected a rising order`},
		{`full = "1 L"`, `settable = "eighths"`, `:40: gauge.settable: "eighths", expected "percent", "halves" or "marks"`},
		{`full = "1 L"`, `settle = "2 L"`, `:40: gauge.settle: "2 L" the unit "L" is that of a volume, expected a time such as 20, "20 s" or "1 min"`},
		{`full = "1 L"`, `sweep = 400`, `:40: gauge.sweep: 400°, expected 10 to 360`},
		{`full = "1 L"`, "range = [{name = \"old\", emty = 240, full = 33}]", `:40: gauge.range[0].emty: not a known key, expected perhaps "empty"`},
		{`full = "1 L"`, "range = [{name = \"old\", empty = 240, full = 33, sweep = 90}]", `:40: gauge.range[0].sweep: not a known key, expected one of empty, full, name, response`},
		{`full = "1 L"`, "range = [{empty = 240, full = 33}]", `:40: gauge.range[0].name: missing, expected a name in quotes such as "the old gauge"`},
		{`full = "1 L"`, "range = [{name = 5, empty = 240, full = 33}]", `:40: gauge.range[0].name: 5, expected a text in quotes`},
		{`full = "1 L"`, "range = [{name = \"old\", empty = 240}]", `:40: gauge.range[0].full: missing, expected a resistance such as 240, "0.3 ohm", "0.3 Ω" or "1.2 kohm"`},
		{`full = "1 L"`, "range = [{name = \"old\", empty = 240, full = -3}]", `:40: gauge.range[0].full: -3 ohm, expected 0 or more`},
		{`full = "1 L"`, "range = [{name = \"old\", empty = 240, full = \"3 L\"}]", `:40: gauge.range[0].full: "3 L" the unit "L" is that of a volume, expected a resistance such as 240, "0.3 ohm", "0.3 Ω" or "1.2 kohm"`},
		{`full = "1 L"`, "range = [{name = \"old\", empty = 33, full = 33}]", `:40: gauge.range[0].full: 33 ohm, the same as empty, expected another resistance`},
		{`full = "1 L"`, "range = [{name = \"old\", empty = 33, response = [[33, 0], [240, 1]]}]", `:40: gauge.range[0].response: given beside empty or full, expected empty and full, or response`},
		{`full = "1 L"`, "range = [{name = \"old\", response = [[33, 0], [240, 2]]}]", `:40: gauge.range[0].response[1]: dial position 2, expected 0 (empty mark) to 1 (full mark)`},
		{`full = "1 L"`, "range = {name = \"old\", empty = 240, full = 33}", `:40: gauge.range: a table, expected a list: two brackets, [[gauge.range]]`},
		{`full = "1 L"`, "range = [{name = \"old\", empty = 240, full = 33}, {name = \"old\", empty = 0, full = 90}]", `:40: gauge.range[1].name: "old" names two ranges, expected every name once`},
		{`full = "1 L"`, `needle = [[0, 0], [5, 0.6], [3, 1]]`, `:40: gauge.needle: drive 3, position 1 follows drive 5, position 0.6, expected positions that rise and drives that all rise or all fall`},
		{`full = "1 L"`, `needle = [[0, 0], [5, 1.6]]`, `:40: gauge.needle[1]: dial position 1.6, expected 0 (empty mark) to 1 (full mark)`},
		{"[36, 1]", "[238, 1]", `:36: conditioner.stored[1]: the input 238 ohm stands in stored[0] as well, expected every input once`},
		{"[36, 1]", "[36, 0]", `:36: conditioner.stored[1]: the position 0 stands in stored[0] as well, expected every position once`},
		{`full = "1 L"`, `full = "41 L"`, `:40: gauge.full: full mark at 1.911 L and empty mark at 4.286 L, expected the full one above the empty one`},
		{"[gauge]", "[use]\ngrade = 75\n[gauge]", `:39: use.grade: 75°, expected 0 to 60°`},
		{"[gauge]", "[use]\ncornering = \"1.2 g\"\n[gauge]", `:39: use.cornering: 1.2 g, expected 0 to 1 g`},
		{"[gauge]", "[use]\nacceleration = \"20 %\"\n[gauge]", `:39: use.acceleration: "20 %" the unit "%" is that of an angle, expected an acceleration such as 0.2, "0.2 g" or "2 m/s2"`},
		{"[gauge]", "[use]\nconsumption = 16\n[gauge]", `:39: use.consumption: 16, expected a consumption with its unit such as "14 L/100km" or "22 mpg(US)" or "9 L/h" or "2.4 US gal/h"`},
		{"[gauge]", "[use]\nconsumption = \"0 L/h\"\n[gauge]", `:39: use.consumption: 0 L/h, expected more than 0`},
		{"[gauge]", "[use]\nconsumption = \"5 ohm\"\n[gauge]", `:39: use.consumption: "5 ohm" the unit "ohm" is that of a resistance, expected a consumption by distance or a consumption by time such as "14 L/100km" or "22 mpg(US)", or "9 L/h" or "2.4 US gal/h"`},
		{"[gauge]", "[use]\nreserve = \"-5 L\"\n[gauge]", `:39: use.reserve: -5 L, expected 0 or more`},
		{`empty = "3 L"`, `empty = "3 gal"`, `:39: gauge.empty: "3 gal" the unit "gal" has two meanings; write "US gal" or "imp gal", expected a volume such as 58, "58 L", "18 US gal" or "15 imp gal"`},
		{"share = 1", "share = 0", `:43: gauge.marks[1].share: mark "F" (share 0, position 0) follows "E" (share 0, position 0), expected both to rise`},
		{"share = 1", "shear = 1", `:43: gauge.marks[1].shear: not a known key, expected perhaps "share"`},
		{"[wiring]", "[wirring]", `:29: wirring: not a known key, expected perhaps "wiring"`},
		{"[[tank.body]]", "[tank]\nfile = \"nowhere.toml\"\n[[tank.body]]", `:5: tank.file: no such file, expected a path or a built-in name: buggy, camper, demo, genset, launch, loader, pod, quad, sprayer, workboat, dished-drum, hopper-drum, measured-drum, moulded, rounded-box, seat-wedge, template-saddle, tunnel-saddle, vee-bilge`},
	} {
		text := strings.Replace(sound, c.from, c.to, 1)
		if text == sound {
			t.Fatalf("%q is not in the sound rig", c.from)
		}
		path := write(t, text)
		refused(t, path, c.to, c.want)
	}
}

// refused loads a rig that must be refused, and compares the whole error.
func refused(t *testing.T, path, change, want string) {
	t.Helper()
	_, err := Load(path, nil)
	if err == nil {
		t.Errorf("%q: taken, expected %s", change, want)
	} else if got := strings.TrimPrefix(err.Error(), path); got != want {
		t.Errorf("%q:\n got %s\nwant %s", change, got, want)
	}
}

// TestShapeRefusals changes the shape of the sound rig.
func TestShapeRefusals(t *testing.T) {
	from := sound[strings.Index(sound, `shape = "box"`):strings.Index(sound, "\n[tank.fill]")]
	for _, c := range []struct{ to, want string }{
		{"shape = \"outline\"\nlength = 600\npoints = [[0,0],[300,0],[0,250],[300,250]]\n", `:7: tank.body[0].points[1]: the edge to the next corner meets the edge from points[3] to points[0], expected an outline that does not cross itself`},
		{"shape = \"outline\"\nlength = 600\npoints = [[0,0],[300,0],[300,250,260],[0,250]]\n", `:7: tank.body[0].points[2]: fillet radius 260 mm does not fit the edge of 250 mm from (300, 0) to (300, 250), expected a smaller radius`},
		{"shape = \"outline\"\nlength = 600\npoints = [\n[0,250],\n[300,250],\n[300,0,280],\n[0,0]]\n", `:10: tank.body[0].points[2]: fillet radius 280 mm does not fit the edge of 250 mm from (300, 0) to (300, 250), expected a smaller radius`},
		{"shape = \"outline\"\nlength = 600\npoints = [[0,0],[300,0]]\n", `:7: tank.body[0].points: 2 corners, expected 3 or more`},
		{"shape = \"outline\"\nlength = 600\npoints = [[0,0],[300,0],[300,0],[0,250]]\n", `:7: tank.body[0].points[2]: the same corner as the one before it, expected every corner once (the outline closes by itself)`},
		{"shape = \"outline\"\nlength = 600\npoints = [[0,0],[300,0],[100,0],[0,250]]\n", `:7: tank.body[0].points[1]: the outline turns straight back at (300, 0), expected one that does not cross itself`},
		{"shape = \"outline\"\nlength = 100\npoints = [[0,0,200],[600,0],[600,400],[30,400],[10,10],[5,400],[0,400]]\n", `:7: tank.body[0].points[0]: fillet radius 200 mm would cut away the corner points[4], expected a smaller radius`},
		{"shape = \"outline\"\nlength = 300\nwall = 60\npoints = [[0,0],[0,300],[250,300],[250,200],[350,200],[350,300],[600,300],[600,0],[350,0],[350,100],[250,100],[250,0]]\n", `:7: tank.body[0].wall: 60 mm makes opposite sides of the outline meet, expected a thinner wall`},
		{"shape = \"box\"\nlength = 600\nwidth = 300\nheight = 250\n[[tank.body]]\nname = \"top\"\nshape = \"box\"\nlength = 600\nwidth = 300\nheight = 100\nat = [0, 0, 200]\n", `:9: tank.body[1]: top and body 1 (body[0]) overlap by about 9 L, which would count twice, expected bodies that only touch`},
		{"shape = \"box\"\nlength = 600\nwidth = 300\nheight = 250\n[[tank.body]]\nname = \"pump\"\nshape = \"box\"\nlength = 100\nwidth = 100\nheight = 200\nat = [0, 0, -100]\ndisplace = true\n", `:9: tank.body[1]: pump displaces fuel, but about 1 L of it stick out of body 1, expected it inside the fuel`},
		{"shape = \"cylinder\"\nlength = 600\n", `:4: tank.body[0].diameter: missing, expected a length such as 508, or around = a tape's girth`},
		{"shape = \"cylinder\"\ndiameter = 300\n", `:4: tank.body[0].length: missing, expected the length of the straight part such as 914, or overall = the length over the heads`},
		{"shape = \"cylinder\"\ndiameter = 300\noverall = 100\nheads = { shape = \"hemispherical\" }\n", `:7: tank.body[0].overall: 100 mm is less than the two heads together, 300 mm, expected more`},
		{"shape = \"cylinder\"\ndiameter = 300\nlength = 100\nheads = { shape = \"cone\" }\n", `:8: tank.body[0].heads.depth: missing, expected a length such as 60: a cone head has no usual depth`},
		{"shape = \"cylinder\"\ndiameter = 300\nlength = 100\nheads = { shape = \"spherical\", depth = 200 }\n", `:8: tank.body[0].heads.depth: 200 mm, expected at most the cylinder's radius 150 mm for a spherical cap`},
		{"shape = \"cylinder\"\ndiameter = 300\nlength = 100\nhigh_head = { shape = \"torispherical\", dish_radius = 100 }\n", `:8: tank.body[0].high_head.dish_radius: 100 mm, expected at least the cylinder's radius 150 mm`},
		{"shape = \"cylinder\"\ndiameter = 300\nlength = 100\nlow_head = { shape = \"torispherical\", knuckle_radius = 200 }\n", `:8: tank.body[0].low_head.knuckle_radius: 200 mm, expected above 0 and at most the cylinder's radius 150 mm`},
		{"shape = \"oval\"\nwidth = 300\nheight = 0\nlength = 600\n", `:7: tank.body[0].height: 0 mm, expected a length above 0 and below 1e+06 mm`},
		{"shape = \"box\"\nlength = 600\nwidth = 300\nheight = 250\ndisplace = true\n", `:4: tank.body: every body displaces fuel, expected one that holds it`},
	} {
		path := write(t, strings.Replace(sound, from, c.to, 1))
		refused(t, path, c.to, c.want)
	}
}

// TestPlacesInAModuleAreFine puts pickup and pivot into a body that displaces
// fuel.
func TestPlacesInAModuleAreFine(t *testing.T) {
	module := "[[tank.body]]\nshape = \"cylinder\"\nalong = \"z\"\ndiameter = 120\nlength = 245\nat = [250, 90, 2]\ndisplace = true\n\n[tank.fill]"
	if _, err := Load(write(t, strings.Replace(sound, "[tank.fill]", module, 1)), nil); err != nil {
		t.Error(err)
	}
}

func TestOverrides(t *testing.T) {
	for _, c := range []struct{ set, want string }{
		{"sender.arm=190", ""},
		{"sender.arm=7 1/2 in", ""},
		{`sender.arm="7 1/2 in"`, ""},
		{"tank.pickup.at=[310, 150, 10]", ""},
		{"tank.body[0].length=640", ""},
		{"gauge.empty=sender", ""},
		{"use.grade=18 %", ""},
		{"mount.nose_up=2", ""},
		{" tank.file = rounded-box", ""},
		{"sender.arn=190", `--set: sender.arn: not a known key, expected perhaps "arm"`},
		{"sender.arm=7,5 in", `--set: sender.arm: "7,5 in" has a comma; write a decimal point: "7.5 in", expected a length such as 620, "24 3/8 in", "2 ft 3 in" or "61 cm"`},
		{"tank.body[3].length=640", `--set: tank.body[3].length: there is no element [3], expected one of the 1 there are`},
		{"tank.body.length=640", `--set: tank.body.length: length is not within a table, expected the name of a key of a table (an element of a list is written [0])`},
		{"arm", `--set: arm: expected key=value such as sender.arm=230 or tank.body[0].length=640`},
		{"=3", `--set: expected key=value such as sender.arm=230 or tank.body[0].length=640`},
	} {
		_, err := Load(write(t, sound), []string{c.set})
		if c.want == "" && err != nil || c.want != "" && (err == nil || err.Error() != c.want) {
			t.Errorf("%s:\n got %v\nwant %s", c.set, err, c.want)
		}
	}
}

// TestTankFile reads a tank of its own file; errors there name that file, and
// what the rig says itself wins.
func TestTankFile(t *testing.T) {
	dir := t.TempDir()
	from := sound[strings.Index(sound, "[[tank.body]]"):strings.Index(sound, "[sender]")]
	put := func(name, text string) string {
		t.Helper()
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	rig := put("rig.toml", strings.Replace(sound, from, "[tank]\nfile = \"tank.toml\"\n\n[tank.fill]\nvolume = 40\n\n", 1))
	put("tank.toml", "format = 1\nname = \"a tank\"\n\n"+from)
	got, err := Load(rig, nil)
	if err != nil {
		t.Fatal(err)
	}
	if got.Tank.Full != 40 {
		t.Errorf("full with %g L, expected the rig's own 40", got.Tank.Full)
	}
	if got, err = Load(rig, []string{"tank.body[0].length=700"}); err != nil || got.Tank.Capacity < 50 {
		t.Errorf("an override of the tank's file: %v", err)
	}
	bad := put("tank.toml", "format = 1\nname = \"a tank\"\n\n"+strings.Replace(from, "radius = 30", "radius = \"a lot\"", 1))
	if _, err = Load(rig, nil); err == nil || !strings.HasPrefix(err.Error(), bad+":9: tank.body[0].radius: ") {
		t.Errorf("an error in the tank's file: %v", err)
	}
}

func FuzzLoad(f *testing.F) {
	f.Add(sound)
	for _, name := range []string{"demo", "camper", "workboat", "tunnel-saddle", "vee-bilge", "hopper-drum", "pod", "genset", "template-saddle", "measured-drum"} {
		text, err := library.ReadFile("library/" + name + ".toml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Add("a = [[1, 2], {b = '''x'''}]\n[[t.u]]\n[t.u.v]\n\"q\".'r' = 1 # c")
	f.Fuzz(func(t *testing.T, text string) {
		d, err := parse("fuzz", text)
		if err == nil {
			if _, named := d.tree["tank"].(map[string]any); named {
				_, err = build(d)
			}
		}
		if err == nil {
			return
		}
		e, ok := err.(*Error)
		if !ok {
			t.Fatalf("%T: %v", err, err)
		}
		if strings.Contains(e.Error(), "\n") || e.Line < 0 || e.Line > strings.Count(text, "\n")+1 {
			t.Errorf("line %d of %d: %q", e.Line, strings.Count(text, "\n")+1, e.Error())
		}
	})
}

func FuzzOverride(f *testing.F) {
	for _, s := range []string{"sender.arm=190", "tank.body[0].length=24 3/8 in", "tank.pickup.at=[1,2,3]", "a[0][1].b={c=1}", "x=", "=", "tank.file=demo", "tank={body=[]}"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, assignment string) {
		d, err := parse("fuzz", sound)
		if err != nil {
			t.Fatal(err)
		}
		if err = d.override(assignment); err == nil {
			_, err = build(d)
		}
		if err != nil && strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: an error of more than one line: %q", assignment, err)
		}
	})
}
