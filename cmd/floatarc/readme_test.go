package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestReadmeRigsLoad reads the rigs that the README prints, and what it prints of
// other senders in place of the first one's own.
func TestReadmeRigsLoad(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	fences := strings.Split("\n"+string(text), "\n```")
	blocks := func(language string) (out []string) {
		for i := 1; i < len(fences); i += 2 { // every other part is within a fence
			if head, body, _ := strings.Cut(fences[i], "\n"); head == language {
				out = append(out, body+"\n")
			}
		}
		return out
	}
	rigs := blocks("toml")
	if len(rigs) != 2 {
		t.Fatalf("the README holds %d rigs, expected two", len(rigs))
	}
	whole := rigs[0]
	own := whole[strings.Index(whole, "[sender]"):strings.Index(whole, "[wiring]")]
	for _, part := range blocks("") {
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
