package data

import "tamis/compiler/sheets"

// The shape of `events` is published: spec/events.schema.json.

type jEvent struct {
	Kind     string     `json:"kind"`
	Start    string     `json:"start"`
	End      string     `json:"end"`
	Minute   int        `json:"minute"`
	Minutes  int        `json:"minutes"`
	Letter   string     `json:"letter,omitempty"`
	Dish     string     `json:"dish,omitempty"`
	Step     int        `json:"step,omitempty"`
	Load     int        `json:"load,omitempty"`
	Who      []string   `json:"who,omitempty"`
	Where    *jWhere    `json:"where,omitempty"`
	Thing    string     `json:"thing,omitempty"`
	Cut      string     `json:"cut,omitempty"`
	Amount   *jMeasured `json:"amount,omitempty"`
	Words    string     `json:"words"`
	Phases   []jPhase   `json:"phases,omitempty"`
	Critical bool       `json:"critical,omitempty"`
	Heat     *jSetting  `json:"heat,omitempty"`
	Course   string     `json:"course,omitempty"`
}

type jWhere struct {
	Oven    string   `json:"oven,omitempty"`
	Shelves []int    `json:"shelves,omitempty"`
	Rings   []int    `json:"rings,omitempty"`
	Level   string   `json:"level,omitempty"`
	Grill   bool     `json:"grill,omitempty"`
	Place   string   `json:"place,omitempty"`
	Vessel  string   `json:"vessel,omitempty"`
	Vessels int      `json:"vessels,omitempty"`
	Tools   []string `json:"tools,omitempty"`
}

type jMeasured struct {
	Exact   string `json:"exact"`
	High    string `json:"high,omitempty"`
	Unit    string `json:"unit,omitempty"`
	Printed string `json:"printed"`
}

type jPhase struct {
	Kind  string   `json:"kind"`
	Start string   `json:"start"`
	End   string   `json:"end"`
	Who   []string `json:"who,omitempty"`
	Place string   `json:"place,omitempty"`
}

type jSetting struct {
	Celsius int    `json:"celsius"`
	Fan     bool   `json:"fan"`
	Turned  bool   `json:"turned"`
	Until   string `json:"until"`
	Printed string `json:"printed"`
}

func event(e sheets.Event) jEvent {
	out := jEvent{
		Kind: e.Kind, Start: e.Start, End: e.End, Minute: e.Minute, Minutes: e.Minutes,
		Letter: clean(e.Letter), Dish: clean(e.Dish), Step: e.Step, Load: e.Load, Who: each(e.Who, clean), Where: where(e.Where),
		Thing: clean(e.Thing), Cut: clean(e.Cut), Words: clean(e.Words), Critical: e.Critical, Course: clean(e.Course),
		Phases: each(e.Phases, func(p sheets.Phase) jPhase {
			return jPhase{p.Kind, p.Start, p.End, each(p.Who, clean), clean(p.Place)}
		}),
	}
	if a := e.Amount; a != nil {
		out.Amount = &jMeasured{a.Exact, a.High, clean(a.Unit), clean(a.Printed)}
	}
	if h := e.Heat; h != nil {
		out.Heat = &jSetting{h.Celsius, h.Fan, h.Turned, h.Until, clean(h.Words)}
	}
	return out
}

// where is a place; nil when nothing is said of it.
func where(w sheets.Where) *jWhere {
	if w.Oven == "" && len(w.Rings) == 0 && !w.Grill && w.Place == "" && w.Vessel == "" && len(w.Tools) == 0 {
		return nil
	}
	return &jWhere{clean(w.Oven), w.Shelves, w.Rings, clean(w.Level), w.Grill, clean(w.Place), clean(w.Vessel), w.Vessels, each(w.Tools, clean)}
}
