package main

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"floatarc/calibration/fit"
	"floatarc/tanks"
)

// fenced returns the parts of the README between fences of a language.
func fenced(t *testing.T, language string) (out []string) {
	t.Helper()
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	fences := strings.Split("\n"+string(text), "\n```")
	for i := 1; i < len(fences); i += 2 { // every other part is within a fence
		if head, body, _ := strings.Cut(fences[i], "\n"); head == language {
			out = append(out, body+"\n")
		}
	}
	return out
}

// TestReadmeLogFits fits the log that the README prints to the demo rig.
func TestReadmeLogFits(t *testing.T) {
	logs := fenced(t, "csv")
	if len(logs) != 1 {
		t.Fatalf("the README holds %d logs, expected one", len(logs))
	}
	path := filepath.Join(t.TempDir(), "log.csv")
	if err := os.WriteFile(path, []byte(logs[0]), 0o600); err != nil {
		t.Fatal(err)
	}
	j, err := (&options{units: "metric"}).load("demo")
	if err != nil {
		t.Fatal(err)
	}
	s, err := j.fitSheet(path, fitFlags{log: logFlags{start: drained}, plan: planFlags{method: atMarks, neverOver: quarter}})
	if err != nil {
		t.Fatal(err)
	}
	if s.outcome.RMS > 0.2 || s.verdict() == wrong {
		t.Errorf("%.2f L are left, %s", s.outcome.RMS, s.verdict())
	}
}

// TestDemoLogIsRecovered: the built-in log was made up of a rig whose arm is 4 mm longer
// and whose joints have 0.8 ohm more than measured; both come out within what is then
// uncertain of them, and better known than before.
func TestDemoLogIsRecovered(t *testing.T) {
	j, err := (&options{units: "metric"}).load("demo")
	if err != nil {
		t.Fatal(err)
	}
	s, err := j.fitSheet("demo-log", fitFlags{log: logFlags{start: drained}, plan: planFlags{method: atMarks, neverOver: quarter}})
	if err != nil {
		t.Fatal(err)
	}
	truth := map[string]float64{"sender.arm": 234, "wiring.ground": 1.1, "sender.pivot[2]": 185, "sender.stop_low": -46, "sender.stop_high": 10, "sender.resistance.low": 240, "sender.resistance.high": 33, "tank.scale": 1}
	for _, p := range s.outcome.Parameters {
		if off := math.Abs(p.After - truth[p.Name]); off > fit.Coverage*p.AfterSigma || p.AfterSigma > p.Sigma {
			t.Errorf("%s: %.3f ± %.3f (before ± %.3f), the truth is %g", p.Name, p.After, p.AfterSigma, p.Sigma, truth[p.Name])
		}
	}
	// The points that follow: nearer to those of the true rig than those of the rig as measured.
	file, err := tanks.Load("demo", []string{"sender.arm=234", "wiring.ground=1.1"})
	if err != nil {
		t.Fatal(err)
	}
	right, err := jobOf(file, j.sys).plan(planFlags{method: atMarks})
	if err != nil {
		t.Fatal(err)
	}
	before, after := 0.0, 0.0
	for i, p := range right.points {
		before += math.Abs(s.before.points[i].InputOhms - p.InputOhms)
		after += math.Abs(s.plan.points[i].InputOhms - p.InputOhms)
	}
	if after > before/2 {
		t.Errorf("the corrected points are off by %.2f ohm together, those before by %.2f", after, before)
	}
}

// TestReadmeRigsLoad reads the rigs that the README prints, and what it prints of
// other senders in place of the first one's own.
func TestReadmeRigsLoad(t *testing.T) {
	rigs := fenced(t, "toml")
	if len(rigs) != 2 {
		t.Fatalf("the README holds %d rigs, expected two", len(rigs))
	}
	whole := rigs[0]
	own := whole[strings.Index(whole, "[sender]"):strings.Index(whole, "[wiring]")]
	for _, part := range fenced(t, "") {
		if strings.HasPrefix(part, "[sender.flange]") {
			part = "[sender]\nstop_high = 8\n" + part + "[sender.resistance]\nlow = 240\nhigh = 33\n"
		}
		rigs = append(rigs, strings.Replace(whole, own, part+"\n", 1))
	}
	if len(rigs) < 4 {
		t.Fatalf("the README holds %d rigs and senders", len(rigs))
	}
	for _, rig := range rigs {
		path := filepath.Join(t.TempDir(), "rig.toml")
		if err := os.WriteFile(path, []byte(rig), 0o600); err != nil {
			t.Fatal(err)
		}
		o := &options{units: "metric"}
		j, err := o.load(path)
		if err != nil {
			t.Errorf("%v in\n%s", err, rig)
			continue
		}
		for _, w := range j.warnings(o.thinner(path)) {
			if w.Code == "rated_differs" || w.Code == "swing_cut" || w.Code == "no_points" {
				t.Errorf("%s: %s", w.Code, w.Text)
			}
		}
	}
}
