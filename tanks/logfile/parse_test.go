package logfile

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"floatarc/tanks/quantity"
)

var none = math.NaN()

// alike compares rows but for rounding; what is not given is alike. An uncertainty
// has the rounding of its value: it is half a difference of two values.
func alike(a, b Row) bool {
	for _, v := range []struct {
		x, y  *float64
		scale float64
	}{
		{&a.Amount, &b.Amount, b.Amount}, {&a.AmountSigma, &b.AmountSigma, b.Amount},
		{&a.Reading, &b.Reading, b.Reading}, {&a.ReadingSigma, &b.ReadingSigma, b.Reading},
		{&a.NoseUp, &b.NoseUp, b.NoseUp}, {&a.LeftUp, &b.LeftUp, b.LeftUp}, {&a.Temperature, &b.Temperature, b.Temperature},
	} {
		if math.IsNaN(*v.x) && math.IsNaN(*v.y) || math.Abs(*v.x-*v.y) <= 1e-14*math.Max(1, math.Abs(v.scale)) {
			*v.x, *v.y = 0, 0
		}
	}
	return a == b
}

func expect(t *testing.T, name string, got, want *Log) {
	t.Helper()
	if len(got.Rows) != len(want.Rows) {
		t.Errorf("%s: %d rows, expected %d", name, len(got.Rows), len(want.Rows))
		return
	}
	for i, row := range got.Rows {
		if !alike(row, want.Rows[i]) {
			t.Errorf("%s: row %d is %+v, expected %+v", name, i, row, want.Rows[i])
		}
	}
	a, b := *got, *want
	a.Rows, b.Rows = nil, nil
	if !reflect.DeepEqual(a, b) {
		t.Errorf("%s: %+v, expected %+v", name, a, b)
	}
}

// TestParse reads logs as people write them.
func TestParse(t *testing.T) {
	const us = quantity.LitresPerUSGallon
	for name, c := range map[string]struct {
		text string
		want Log
	}{
		"the least": {"litres_added,ohms\n0,238\n10,214\n", Log{Reads: Ohms, Rows: []Row{
			{Line: 2, Reading: 238, Temperature: none}, {Line: 3, Amount: 10, Reading: 214, Temperature: none},
		}}},
		"the package comment": {"litres_added, ohms, needle, note\n0,            238\n10 ± 0.1,     214,  E,      first can\n2 US gal,     197,  just over 1/4\n", Log{Reads: Ohms, NeedleSeen: true, Rows: []Row{
			{Line: 2, Reading: 238, Temperature: none},
			{Line: 3, Amount: 10, AmountSigma: 0.1, Reading: 214, Needle: "E", Temperature: none, Note: "first can"},
			{Line: 4, Amount: 2 * us, Reading: 197, Needle: "just over 1/4", Temperature: none},
		}}},
		"all columns": {
			"\ufeff# the left tank\r\n\r\nLitres added, litres-removed, OHMS, Needle, nose up, left_up, temperature, note, expected_ohms\r\n" +
				"  # level ground\r\n10 ± 0.1,,214 ± 0.5,just over 1/4,5 %,-2,20,\"first can, to the brim\",213\r\n, 2 , 220 ohm,,,,68 degF\r\n,,,,,,,,\r\n0,0,,,,,,\r\n",
			Log{Reads: Ohms, NeedleSeen: true, Tilted: true, Warm: true, Rows: []Row{
				{5, 10, 0.1, 214, 0.5, "just over 1/4", math.Atan(0.05) * 180 / math.Pi, -2, 20, "first can, to the brim"},
				{Line: 6, Amount: -2, Reading: 220, Temperature: 20},
				{Line: 8, Reading: none, Temperature: none},
			}},
		},
		"US gallons": {"us_gal_added,volts\n2,1.5\n1 ± 0.25,1.4 ± 0.01\n5 L,1300 mV\n1/2,1\n", Log{Reads: Volts, Rows: []Row{
			{Line: 2, Amount: 2 * us, Reading: 1.5, Temperature: none},
			{Line: 3, Amount: us, AmountSigma: us / 4, Reading: 1.4, ReadingSigma: 0.01, Temperature: none},
			{Line: 4, Amount: 5, Reading: 1.3, Temperature: none},
			{Line: 5, Amount: us / 2, Reading: 1, Temperature: none},
		}}},
		"units in brackets": {"ohms (kohm),total (US gal),temperature (degF),nose up (%)\n0.2,1,50,100\n1 ohm,1 L,,\n", Log{Reads: Ohms, Totals: true, Tilted: true, Warm: true, Rows: []Row{
			{Line: 2, Amount: us, Reading: 200, NoseUp: 45, Temperature: 10},
			{Line: 3, Amount: 1, Reading: 1, Temperature: none},
		}}},
		"the same unit twice": {"litres_added [L],mv (mV)\n1,250", Log{Reads: Volts, Rows: []Row{{Line: 2, Amount: 1, Reading: 0.25, Temperature: none}}}},
		"by mass": {"kg_added,lb_removed,counts\n1 ± 0.01,,512\n,2,500 counts\n300 g,,0.5e3 ± 2\n", Log{Reads: Counts, ByMass: true, Rows: []Row{
			{Line: 2, Amount: 1, AmountSigma: 0.01, Reading: 512, Temperature: none},
			{Line: 3, Amount: -2 * 0.45359237, Reading: 500, Temperature: none},
			{Line: 4, Amount: 0.3, Reading: 500, ReadingSigma: 2, Temperature: none},
		}}},
		"semicolons": {"litres_total;millivolts;temperature_f;note\n10.5;250;41;a, b\n11;\n", Log{Reads: Volts, Totals: true, Warm: true, Rows: []Row{
			{Line: 2, Amount: 10.5, Reading: 0.25, Temperature: 5, Note: "a, b"},
			{Line: 3, Amount: 11, Reading: none, Temperature: none},
		}}},
		"empty columns of a spreadsheet": {"ml_added,kohm,,\n500,0.2,,\n,,,,,\n", Log{Reads: Ohms, Rows: []Row{{Line: 2, Amount: 0.5, Reading: 200, Temperature: none}}}},
		"left out at the end":            {"kohms,l_added,imp_gal_removed,temperature_c\n0.1,2\n0.1,,1\n", Log{Reads: Ohms, Rows: []Row{{Line: 2, Amount: 2, Reading: 100, Temperature: none}, {Line: 3, Amount: -quantity.LitresPerGallon, Reading: 100, Temperature: none}}}},
		"a note of two lines":            {"note,liters_added,ohms\n\"a\nb\",1,2\nc,1,3", Log{Reads: Ohms, Rows: []Row{{Line: 2, Amount: 1, Reading: 2, Temperature: none, Note: "a\nb"}, {Line: 4, Amount: 1, Reading: 3, Temperature: none, Note: "c"}}}},
		"angles of zero":                 {"litres_added,ohms,nose_up_deg,expected litres,expected ohms (kohm)\n1,2,0,,\n", Log{Reads: Ohms, Rows: []Row{{Line: 2, Amount: 1, Reading: 2, Temperature: none}}}},
	} {
		got, err := Parse([]byte(c.text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		expect(t, name, got, &c.want)
	}
}

const columns = "litres_added, litres_removed, litres_total, ohms, volts, counts, needle, nose_up, left_up, temperature, note"

// TestHeadings refuses headings.
func TestHeadings(t *testing.T) {
	const amounts = `a volume such as 58, "58 L", "18 US gal" or "15 imp gal", or a mass such as 14, "14 g" or "0.5 oz"`
	for _, c := range []struct {
		text string
		line int
		says string
	}{
		{"", 1, "no heading, expected one such as litres_added,ohms"},
		{"# nothing\n\n", 1, "no heading, expected one such as litres_added,ohms"},
		{"# poured\n10,214\n12,200\n", 2, "no heading, expected one such as litres_added,ohms"},
		{"-1.5,214\n", 1, "no heading, expected one such as litres_added,ohms"},
		{"litres_added,ohms\n", 1, "no rows below the heading, expected one for each reading"},
		{"litres_added,ohms,needle\n10,,1/4\n,,\n5,", 1, "ohms: no reading in any row, expected one or more"},
		{"litres_added,needle\n10,1/4", 1, "no column of readings, expected ohms, volts or counts"},
		{"# a\n\nohms,needle\n10,1/4", 3, "no column of amounts, expected litres_added, litres_removed or litres_total"},
		{"litre_added,ohm,nedle\n10,1", 1, `nedle: not a known column, expected perhaps "needle"`},
		{"litrs_added,ohms\n10,1", 1, `litrs_added: not a known column, expected perhaps "litres_added"`},
		{"Litres in,ohms\n10,1", 1, `Litres in: not a known column, expected perhaps "litres_added"`},
		{"litres_added,ohms,driver's name\n10,1", 1, "driver's name: not a known column, expected one of " + columns},
		{"litres_added,volts_mv\n10,1", 1, "volts_mv: not a known column, expected one of " + columns},
		{"litres_added,ohms," + strings.Repeat("ohms ", 40) + "\n10,1", 1, strings.TrimSpace(strings.Repeat("ohms ", 8)) + " …: not a known column, expected one of " + columns},
		{"litres_added,,ohms\n10,1", 1, "a column without a name between others, expected one of " + columns},
		{"gal_added,ohms\n10,1", 1, `gal_added: the unit "gal" has two meanings, expected "US gal" or "imp gal"`},
		{"added (Gallons),ohms\n10,1", 1, `added (Gallons): the unit "Gallons" has two meanings, expected "US gal" or "imp gal"`},
		{"added,ohms\n10,1", 1, `added: without a unit, expected one such as litres_added or "added (US gal)"`},
		{"Total,ohms\n10,1", 1, `Total: without a unit, expected one such as litres_total or "total (US gal)"`},
		{"buckets_added,ohms\n10,1", 1, `buckets_added: the unit "buckets" is not known here, expected that of ` + amounts},
		{"added (± 3 L),ohms\n10,1", 1, `added (± 3 L): the unit "± 3 L" is not known here, expected that of ` + amounts},
		{"litres_added (US gal),ohms\n10,1", 1, `litres_added (US gal): in "litres" and in "US gal", expected one unit`},
		{"kohm (ohm),litres_added\n1,10", 1, `kohm (ohm): in "kohm" and in "ohm", expected one unit`},
		{"litres_added,ohms (V)\n10,1", 1, `ohms (V): the unit "V" is not known here, expected that of a resistance such as 240, "0.3 ohm", "0.3 Ω" or "1.2 kohm"`},
		{"litres_added,counts (V)\n10,1", 1, `counts (V): in "V", expected no unit`},
		{"litres_added,ohms,Needle (%)\n10,1", 1, `Needle (%): in "%", expected no unit`},
		{"litres_added,ohms,temperature_x\n10,1", 1, `temperature_x: not a known column, expected perhaps "temperature"`},
		{"litres_added,ohms,Litres Added\n10,1", 1, "Litres Added: given twice, expected every column once"},
		{"litres_added,ohms,us_gal_added\n10,1", 1, `us_gal_added: tells the same as "litres_added", expected one of the two`},
		{"litres_added,ohms,volts\n10,1,1", 1, `volts: a reading beside that of "ohms", expected one of the two`},
		{"litres_added,ohms,litres_total\n10,1,1", 1, `litres_total: beside "litres_added", expected either what is in the tank or what went in and out`},
		{"total (L),ohms,litres_removed\n10,1,1", 1, `litres_removed: beside "total (L)", expected either what is in the tank or what went in and out`},
		{"litres_added,ohms,kg_removed\n10,1,1", 1, `kg_removed: beside "litres_added", expected all amounts as volumes or all as masses`},
		{"litres_added,\"oh\nms\"\n10,1", 1, "oh ms: not a known column, expected perhaps \"ohms\""},
	} {
		refuse(t, c.text, c.line, c.says)
	}
}

// refuse expects an error of a line.
func refuse(t *testing.T, text string, line int, says string) {
	t.Helper()
	log, err := Parse([]byte(text))
	var e *Error
	if !errors.As(err, &e) {
		t.Errorf("%.60q: %+v, %v, expected an *Error: %s", text, log, err, says)
		return
	}
	if e.Line != line || e.Error() != says {
		t.Errorf("%.60q:\n%d: %s, expected\n%d: %s", text, e.Line, e, line, says)
	}
}

// TestRows refuses rows.
func TestRows(t *testing.T) {
	const volume = `, expected a volume such as 58, "58 L", "18 US gal" or "15 imp gal"`
	const resistance = `, expected a resistance such as 240, "0.3 ohm", "0.3 Ω" or "1.2 kohm"`
	for _, c := range []struct {
		heading, row, says string
	}{
		{"litres_added,ohms", "10,5,214", "3 fields, expected 2 as in the heading (a decimal comma? write a decimal point; a text with a comma goes in quotes)"},
		{"litres_added;ohms", "10;5;214", "3 fields, expected 2 as in the heading (a text with a semicolon goes in quotes)"},
		{"litres_added;ohms", "10,5;214", `litres_added: "10,5" has a comma; write a decimal point: "10.5"` + volume},
		{"litres_added,ohms", "10", "1 field, expected 2 as in the heading"},
		{"needle,ohms,litres_added,note", "1/4,10", "2 fields, expected 4 as in the heading, or at least 3"},
		{"litres_added,ohms", "-2,214", "litres_added: -2 L, a negative pour, expected 0 or more: drained fuel goes into a column such as litres_removed"},
		{"us_gal_removed,ohms", "-1,214", "us_gal_removed: -3.785 L, less than nothing drained, expected 0 or more: poured fuel goes into a column such as litres_added"},
		{"kg_total,ohms", "-1,214", "kg_total: -1 kg in the tank, expected 0 or more"},
		{"litres_total,ohms", ",214", "litres_total: empty, expected what is in the tank"},
		{"litres_added,litres_removed,ohms", "1,2,214", "litres_removed: fuel went in and out in one row, expected a row for either"},
		{"litres_added,ohms", "1e7,214", `litres_added: "1e7", expected at most 1e+06 L`},
		{"litres_added,ohms", "1 ± 1e7,214", `litres_added: "1 ± 1e7", expected at most 1e+06 L`},
		{"litres_added,ohms", "ten,214", `litres_added: "ten" does not start with a number` + volume},
		{"litres_added,ohms", "NaN,214", `litres_added: "NaN" does not start with a number` + volume},
		{"litres_added,ohms", "3 kg,214", `litres_added: "3 kg" the unit "kg" is that of a mass` + volume},
		{"litres_added,ohms", "3 gal,214", `litres_added: "3 gal" the unit "gal" has two meanings; write "US gal" or "imp gal"` + volume},
		{"litres_added,ohms", strings.Repeat("1", 81) + ",214", "litres_added: 81 letters" + volume},
		{"litres_added,ohms", "10,-1", "ohms: -1 ohm, expected 0 or more"},
		{"litres_added,millivolts", "10,-1", "millivolts: -0.001 V, expected 0 or more"},
		{"litres_added,counts", "10,-1", "counts: -1 counts, expected 0 or more"},
		{"litres_added,ohms", "10,20 Mohm", "ohms: 2e+07 ohm, an open wire, expected at most 1e+07"},
		{"litres_added,ohms", "10,1 ± 1e8", `ohms: "1 ± 1e8", expected at most 1e+07 ohm`},
		{"litres_added,volts", "10,1e8", `volts: "1e8", expected at most 1e+07 V`},
		{"litres_added,ohms", "10,OL", `ohms: "OL" does not start with a number` + resistance},
		{"litres_added,ohms", "10,inf", `ohms: "inf" does not start with a number` + resistance},
		{"litres_added,ohms", "10,1e999", `ohms: "1e999 ohm" the number "1e999" is out of range` + resistance},
		{"litres_added,counts", "10,512 V", `counts: "512 V" is not a number of counts, expected one such as 512 or "512 ± 2"`},
		{"litres_added,counts", "10,50 %", `counts: "50 %" is not a number of counts, expected one such as 512 or "512 ± 2"`},
		{"litres_added,ohms,nose_up", "10,1,61", "nose_up: 61 deg, expected -60 to 60"},
		{"litres_added,ohms,left_up", "10,1,-200 %", "left_up: -63.43 deg, expected -60 to 60"},
		{"litres_added,ohms,left_up", "10,1,5 ± 1", `left_up: "5 ± 1" has an uncertainty, expected a number by itself: only amounts and readings may have one`},
		{"litres_added,ohms,temperature", "10,1,101", "temperature: 101 degC, expected -60 to 100"},
		{"litres_added,ohms,temperature_f", "10,1,-100", "temperature_f: -73.33 degC, expected -60 to 100"},
		{"litres_added,ohms,note", `10,1,2" left`, `not CSV: bare " in non-quoted-field, expected a text with a comma or a quote in quotes`},
		{"litres_added,ohms,note", "10,1,\"left\n\n\n", `not CSV: extraneous or missing " in quoted-field, expected a text with a comma or a quote in quotes`},
		{"litres_added,ohms", "10 \xb1 1,200", "not text, expected CSV saved as UTF-8"},
	} {
		refuse(t, c.heading+"\n"+c.row, 2, c.says)
	}
}

// TestLimits refuses a log that is too long, and takes the longest.
func TestLimits(t *testing.T) {
	longest := "litres_added,ohms\n" + strings.Repeat("1,2\n", mostRows)
	if _, err := Parse([]byte(longest)); err != nil {
		t.Error(err)
	}
	refuse(t, longest+"1,2\n", mostRows+2, "more than 10000 rows, expected at most so many")
	refuse(t, strings.Repeat("#", greatestLog+1), 0, "1048577 bytes, expected a log of at most 1048576")
}

// FuzzLog: any file becomes a log of finite numbers, or an error of one line that
// names a line of the file.
func FuzzLog(f *testing.F) {
	for _, s := range []string{
		"litres_added,ohms\n0,238\n10 ± 0.1,214\n", "\ufefflitres_total;mv;note\r\n10;250;\"a;b\"\r\n", "added (US gal),removed (imp gal),kohms,needle\n2,,0.2,E\n,1,,F\n",
		"kg_added,counts,nose_up,left_up,temperature_f\n1 lb,512,5 %,-2,68\n", "# a\n\n10,214", "\"", "litres_added,ohms\n1e400,NaN\n", "litres_added,ohms,expected_ohms,,\n1,2,3,,,\n ,,\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		log, err := Parse(data)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) {
				t.Fatalf("%T: %v", err, err)
			}
			if strings.ContainsAny(e.Error(), "\r\n") || e.Line < 0 || e.Line > strings.Count(string(data), "\n")+1 {
				t.Fatalf("line %d: %q", e.Line, e.Error())
			}
			return
		}
		sound(t, log)
	})
}

// sound holds a log to what its comments promise.
func sound(t *testing.T, log *Log) {
	readings, line := 0, 1
	for _, row := range log.Rows {
		if row.Line <= line {
			t.Fatalf("line %d follows line %d", row.Line, line)
		}
		line = row.Line
		for _, v := range []float64{row.Amount, row.AmountSigma, row.ReadingSigma, row.NoseUp, row.LeftUp} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%+v", row)
			}
		}
		if row.Reading < 0 || row.Reading > greatestReading || row.AmountSigma < 0 || row.ReadingSigma < 0 || log.Totals && row.Amount < 0 {
			t.Fatalf("%+v", row)
		}
		if math.Abs(row.NoseUp) > greatestAngle || math.Abs(row.LeftUp) > greatestAngle || row.Temperature < coldest || row.Temperature > hottest {
			t.Fatalf("%+v", row)
		}
		if !math.IsNaN(row.Reading) {
			readings++
		}
	}
	if readings == 0 {
		t.Fatal("no reading")
	}
}
