package main

import "floatarc/calibration/reserve"

type attitudeRow struct {
	NoseUp   number `json:"nose_up_deg"`
	LeftUp   number `json:"left_up_deg"`
	LightsAt number `json:"lights_at_l"`
	Unusable number `json:"unusable_l"`
	Usable   number `json:"usable_l"`
}

// A lampChoice is a lamp set in one way, and what is left of the promise with it.
type lampChoice struct {
	On     number `json:"on_ohms"`
	Warn   number `json:"warn_l"`   // in the tank when it lights on level ground
	Latest number `json:"latest_l"` // in the tank when it lights at the unluckiest
	Left   number `json:"left_l"`   // of that, drawable on the worst slope; below 0: dry before it lights
	Short  number `json:"short_l"`  // of the reserve
	AtStop bool   `json:"at_stop"`
}

// A spot is a quantity at an attitude.
type spot struct {
	NoseUp number `json:"nose_up_deg"`
	LeftUp number `json:"left_up_deg"`
	Litres number `json:"litres"`
}

func spotOf(s reserve.Spot) spot {
	return spot{number(s.Attitude.NoseUp), number(s.Attitude.LeftUp), number(s.Litres)}
}

// A stick is an attitude at which the arm does not come down from beyond an angle.
type stick struct {
	NoseUp number `json:"nose_up_deg"`
	LeftUp number `json:"left_up_deg"`
	Angle  number `json:"angle_deg"`
}

type sloshFigures struct {
	Period number `json:"period_s"`
	Length number `json:"length_mm"`
	Depth  number `json:"depth_mm"`
	Round  bool   `json:"upright_cylinder"`
	Cycles int    `json:"cycles"`
}

type reserveAnswer struct {
	Possible   bool          `json:"possible"`
	Reserve    number        `json:"reserve_l"`
	Warn       number        `json:"warn_l"`
	WarnUsable number        `json:"warn_usable_l"`
	On         number        `json:"on_ohms"`
	Off        number        `json:"off_ohms"`
	Lights     string        `json:"lights"`         // "above" or "below" on_ohms
	OnSender   number        `json:"on_sender_ohms"` // of the sender alone
	OffSender  number        `json:"off_sender_ohms"`
	OnSet      number        `json:"on_set_ohms"`
	OffSet     number        `json:"off_set_ohms"`
	WarnSet    number        `json:"warn_set_l"` // with which it then lights on level ground
	OutSet     number        `json:"off_set_l"`  // and goes out
	OffLitres  number        `json:"off_l"`
	OffLimited bool          `json:"off_limited"`
	OnPlace    number        `json:"on_position"`
	OffPlace   number        `json:"off_position"`
	OnDrive    number        `json:"on_drive"`
	OffDrive   number        `json:"off_drive"`
	OnVolts    number        `json:"on_volts"`
	OffVolts   number        `json:"off_volts"`
	Delay      number        `json:"delay_s"`
	DelayTakes number        `json:"delay_l"`
	Slosh      sloshFigures  `json:"slosh"`
	Range      number        `json:"range_km"`
	RangeWorst number        `json:"range_worst_km"`
	RangeBest  number        `json:"range_best_km"`
	Hours      number        `json:"range_h"`
	HoursWorst number        `json:"range_worst_h"`
	HoursBest  number        `json:"range_best_h"`
	LevelOnly  number        `json:"level_only_l"`
	Worst      number        `json:"unusable_worst_l"`
	Sticks     stick         `json:"sticks"`
	Unusable   spot          `json:"unusable_worst"`
	Latest     spot          `json:"latest"`
	Earliest   spot          `json:"earliest"`
	Chosen     lampChoice    `json:"promise"`
	Level      lampChoice    `json:"level_only"`
	Steady     lampChoice    `json:"steady_slope"`
	NoseUp     number        `json:"envelope_nose_up_deg"`
	LeftUp     number        `json:"envelope_left_up_deg"`
	Ordinary   number        `json:"ordinary_share"`
	ProofLeast number        `json:"proof_least_l"` // between which the lamp must light on level ground, the box set so where it can be
	ProofMost  number        `json:"proof_most_l"`
	Attitudes  []attitudeRow `json:"attitudes"`
	Cures      []remedy      `json:"cures"`
	Table      []cardRow     `json:"table"`
	Warnings   []warning     `json:"warnings"`

	Uncertain *reserveUncertain `json:"uncertain,omitempty"`
}

// blankReserve is the answer as long as nothing is known.
func blankReserve() reserveAnswer {
	a := reserveAnswer{Attitudes: []attitudeRow{}, Cures: []remedy{}, Table: []cardRow{}, Warnings: []warning{}}
	nowhere := spot{unknown, unknown, unknown}
	a.Unusable, a.Latest, a.Earliest = nowhere, nowhere, nowhere
	a.Sticks = stick{unknown, unknown, unknown}
	for _, n := range []*number{
		&a.Warn, &a.WarnUsable, &a.On, &a.Off, &a.OnSender, &a.OffSender, &a.OnSet, &a.OffSet, &a.WarnSet, &a.OutSet, &a.OffLitres, &a.OnPlace, &a.OffPlace, &a.OnDrive, &a.OffDrive, &a.OnVolts, &a.OffVolts,
		&a.Delay, &a.DelayTakes, &a.Slosh.Period, &a.Slosh.Length, &a.Slosh.Depth,
		&a.Range, &a.RangeWorst, &a.RangeBest, &a.Hours, &a.HoursWorst, &a.HoursBest, &a.LevelOnly, &a.Worst, &a.ProofLeast, &a.ProofMost,
	} {
		*n = unknown
	}
	return a
}
