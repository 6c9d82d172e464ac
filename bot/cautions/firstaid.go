package cautions

import "slices"

// FirstAid is what to do when somebody was hurt, or something burns.
//
// What a label says and how a hurt is treated are two things: labels say "for
// several minutes" where first aid rinses for 20, and the two orders of rinsing
// and undressing differ. Both are quoted, each with its source, and never mixed
// in one sentence.
type FirstAid struct {
	// Key is the word that is typed, "eyes"; Aliases are other words for it.
	Key     string
	Aliases []string
	// Title is what happened, for a heading.
	Title string
	// Now is what to do this minute.
	Now Line
	// Call says when to call whom.
	Call Line
	// Then is what follows, in its order; what must not be done is part of it.
	Then []Line
	// Label is label text, quoted unchanged.
	Label []Line
}

// Line is a sentence with its source.
type Line struct {
	Text, Source string
}

// Sources of first aid.
const (
	clpLabel   = "label text, " + clp + ", annex IV"
	nhsBurns   = "national advice for burns and scalds, copies at a fire service and a first-aid site"
	nhsAcid    = "national advice on acid burns, quoted by a medical centre"
	eyeRinse   = "a safety page on acid in the eye: 15 to 20 minutes; 15 minutes is what ANSI/ISEA Z358.1 eyewash equipment must last, from memory"
	sjaEyes    = "a first-aid charity's page on eye injuries (St John Ambulance)"
	bleeding   = "a first-aid charity's advice on severe bleeding (St John Ambulance), copies"
	icscAcid   = "ICSC 0362, sulfuric acid"
	puncture   = "health pages on puncture wounds"
	fluoride   = "registration dossier of a fluoride salt (ECHA 100.014.190), guidance on safe use"
	sulphide   = "ICSC 1038, calcium polysulphide, the nearest card"
	fireAdvice = "common advice of fire services and gas suppliers, from memory"
	cadmiumAt  = "29 CFR 1910.1027, appendix A, from memory"
	sjaCurrent = "a first-aid charity's page on low-voltage electrocution (St John Ambulance)"
	ercBLS     = "a fire and rescue service's page on resuscitation; ERC guidelines 2021, basic life support, from memory"
	ercAid     = "ERC guidelines 2021, first aid, from memory"
	nhsAid     = "national introduction to first aid (NHS), copies at a pharmacy and a health site"
	redCross   = "first-aid advice of the Red Cross, copies at a clinic and a news site"
	headBlow   = "pages on head injuries of an ambulance charity, a children's hospital and a Red Cross society"
)

var emergency = "Call your local emergency number (112, 999, 911 ...)"

// Lines for somebody who does not answer, whatever happened.
var (
	notBreathing = Line{"If the person does not answer and does not breathe normally, call, lay them flat, and press hard and fast on the middle of the chest, an adult's 5 to 6 cm deep, 100 to 120 times a minute. Send somebody for a defibrillator. Gasping is not normal breathing.", ercBLS}
	onTheSide    = Line{"If the person does not answer but breathes normally, roll them onto their side, tilt the head back, call, and watch the breathing.", redCross + "; " + ercAid}
)

// firstAid is the table of FirstAids.
var firstAid = []FirstAid{
	{
		Key: "eyes", Aliases: []string{"eye"}, Title: "Something in the eye",
		Now:  Line{"Rinse acid or pickle out of the eye now: running water, lids open, for 20 minutes.", eyeRinse},
		Call: Line{emergency + " while somebody goes on rinsing; it is an emergency even if the pain goes.", sjaEyes + ": chemical splash, wound or embedded object"},
		Then: []Line{
			{"Metal or glass stuck in the eye is different: do not rinse, rub, press or pull it out. Cover the eye without pressing on it and go to hospital.", sjaEyes + "; no rinsing: a hospital's page on cut and punctured eyes"},
			{"If you are alone, rinse first, and call with the phone on loudspeaker while you rinse. A label may say several minutes: go on for the whole 20.", "alone: " + Practice + "; time: " + eyeRinse},
			{"Turn the head so that the water runs away from the other eye, and lift out contact lenses if they come easily.", eyeRinse},
			{"Use water only: never put anything in the eye to neutralise acid.", "a safety page and a news report quoting national advice: water only"},
			{"Then go to hospital at once, and go on rinsing on the way if you can. Take the label or the data sheet with you.", Practice},
			{"Loose grit: do not rub; rinse it out with clean water. Still there, or painful: see a doctor today.", sjaEyes},
			{"Pain or gritty eyes hours after a bright torch or welding: cover them and see a doctor.", sjaEyes + ": flash burn"},
		},
		Label: []Line{{"IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing. (P305+P351+P338)", clpLabel}},
	},
	{
		Key: "skin", Aliases: []string{"acid-burn", "splash"}, Title: "Acid, pickle or flux on the skin",
		Now:  Line{"Brush off any dry powder, then rinse the skin under running water for 20 minutes, now.", nhsAcid},
		Call: Line{emergency + " for strong acid, for the face or hands, or for a large splash; otherwise ask a poison centre or a doctor. Go on rinsing while you call.", nhsAcid + "; hands, face and every chemical burn belong in hospital: " + nhsBurns},
		Then: []Line{
			{"While you rinse, take off wet clothes, shoes, watch and rings, with gloves on if you help somebody else.", nhsAcid + "; another order, rinse, undress, rinse again: " + icscAcid},
			{"Use water only: do not put soda, soap or cream on it.", "a safety page and a news report quoting national advice: water only"},
			{"Fluoride flux or hydrofluoric acid: rinse, call the emergency number at once even if it does not hurt, and say \"fluoride\". If there is 2.5 % calcium gluconate gel, rub it in with gloves on after rinsing, until 15 minutes after the pain stops. Do not wait for the gel.", fluoride + "; gloves and whom to call: " + Practice},
		},
		Label: []Line{
			{"IF ON SKIN (or hair): Take off immediately all contaminated clothing. Rinse skin with water [or shower]. (P303+P361+P353)", clpLabel},
			{"IF ON SKIN: Wash with plenty of water/... (P302+P352)", clpLabel},
		},
	},
	{
		Key: "burn", Aliases: []string{"burns", "burnt", "burned", "scald"}, Title: "A burn from flame, hot metal or wax",
		Now:  Line{"Cool the burn under cool running water now, for 20 minutes.", nhsBurns + "; 20 minutes at least: ERC guidelines 2021, from memory"},
		Call: Line{emergency + " or go to hospital for a burn that is bigger than the person's hand, white or charred, round a limb, or on face, hands, feet or genitals.", nhsBurns},
		Then: []Line{
			{"Clothes or hair on fire: stop, drop and roll, smother the flames with a heavy blanket or drench them with water, and only then cool the burn.", "common advice of fire services, from memory"},
			{"Take off rings, watch and loose clothing near the burn before it swells; leave what sticks to the skin.", nhsBurns},
			{"No ice, no butter, no cream, and do not burst blisters.", nhsBurns},
			{"Keep the rest of the person warm while you cool the burn.", nhsBurns},
			{"After cooling, lay cling film or a clean plastic bag over it; do not wrap it round.", nhsBurns},
			{"Burnt by electricity: switch the power off before you touch the person.", Practice},
			{"A burn by a chemical or by electricity always goes to hospital; acid and pickle: type cautions skin.", nhsBurns},
		},
	},
	{
		Key: "swallowed", Aliases: []string{"swallow", "drank", "drunk", "ingested"}, Title: "Somebody swallowed acid, pickle, flux or metal",
		Now:  Line{"Rinse the mouth with water and spit it out. Do not make the person vomit.", "P301+P330+P331, " + clpLabel},
		Call: Line{"Call a poison centre or your local emergency number (112, 999, 911 ...) now; have somebody fetch the label or data sheet while you call.", "P310, " + clpLabel},
		Then: []Line{
			{"Trouble with breathing, or drowsy: call the emergency number first, and put nothing in the mouth, not even water to rinse.", Practice},
			{"Give nothing to eat or drink unless the poison centre says so.", Practice},
		},
		Label: []Line{
			{"IF SWALLOWED: Rinse mouth. Do NOT induce vomiting. (P301+P330+P331)", clpLabel},
			{"Immediately call a POISON CENTER/doctor/... (P310)", clpLabel},
		},
	},
	{
		Key: "fumes", Aliases: []string{"fume", "inhaled", "breathed", "smoke", "gas"}, Title: "Somebody breathed fumes, smoke or gas",
		Now:  Line{"Get the person out to fresh air only if you need not breathe the gas yourself.", "P304+P340, " + clpLabel + "; the helper: common practice for hydrogen sulphide, from memory"},
		Call: Line{emergency + " for trouble with breathing, chest pain, or if the person is drowsy or blue; otherwise call a poison centre.", Practice + "; whom to call: P310 and P313, " + clpLabel},
		Then: []Line{
			{"Do not hold your breath and go in, and do not go in after somebody who has collapsed in gas: call for rescue with breathing apparatus.", "common practice for hydrogen sulphide, from memory"},
			{"Awake: sit the person half upright and let them rest; keep them warm and do not leave them alone.", icscAcid + "; not alone: " + Practice},
			{"See a doctor even if all seems well: after acid mist, brown nitric fumes, cadmium or fluoride the lungs may fail hours later.", icscAcid + "; cadmium: " + cadmiumAt + "; brown fumes: ICSC 0183, from memory"},
			{"After liver of sulphur with acid, or cyanide: no mouth-to-mouth breathing; the gas poisons the helper. If the person does not breathe, call and do what the emergency service tells you.", sulphide + "; cyanide and the call: " + Practice},
			{"Chills and fever some hours after brass, bronze or nickel silver was melted: it may be metal fume fever. See a doctor, and say what was melted: cadmium begins alike and can kill.", "AWS fact sheet 25; cadmium: " + cadmiumAt},
		},
		Label: []Line{{"IF INHALED: Remove person to fresh air and keep comfortable for breathing. (P304+P340)", clpLabel}},
	},
	{
		Key: "cut", Aliases: []string{"cuts", "bleeding", "needle", "splinter", "stabbed", "punctured"}, Title: "A cut, or something stuck in the hand",
		Now:  Line{"Press hard on the cut with something clean; if something is stuck in it, press beside it.", bleeding},
		Call: Line{emergency + " if blood spurts, if it soaks through, or if it has not stopped after ten minutes of pressing.", bleeding + "; ten minutes: " + puncture},
		Then: []Line{
			{"Something stuck in it (needle, graver, drill, blade): leave it in, press on both sides of it, pad round it, and go to hospital.", bleeding},
			{"If blood soaks through, put another pad on top; do not take the first one off.", bleeding},
			{"A small splinter that sticks out: pull it straight out the way it went in. Buried, deep or near a joint: let a doctor take it out.", puncture},
			{"When it has stopped, rinse a small cut under running water, dry it and cover it. Ask a doctor about tetanus.", bleeding + "; tetanus: " + puncture},
			{"See a doctor today for a deep stab, numbness, a finger that does not move, or a bit of blade that may be left inside.", puncture},
			{"Oil or grease shot into the skin by a press or a hose: go to hospital at once, however small the mark.", Practice},
		},
	},
	{
		Key: "shock", Aliases: []string{"electric-shock", "electrocuted", "electricity"}, Title: "An electric shock",
		Now:  Line{"Do not touch somebody who is still in contact with the current: switch it off at the mains or pull the plug first.", sjaCurrent + "; at the mains: a newspaper column of the same charity"},
		Call: Line{emergency + " as soon as the current is off, or have somebody call while you switch it off.", sjaCurrent},
		Then: []Line{
			{"If you cannot switch it off, stand on something dry that does not conduct, such as a plastic mat or a wooden box, and push the cable or the limb away with a dry wooden broom handle. Use nothing wet and nothing of metal.", sjaCurrent + "; nothing wet, no metal: an electrical safety authority's page on first aid (Tukes)"},
			{"Power line or other high voltage: stay at least 18 metres away until an electrician or the power company says that it is off.", "Tukes, the same page; 18 metres: a first-aid page, and St John Ambulance from memory"},
			notBreathing,
			onTheSide,
			{"Everybody who had a shock is seen by a doctor today, even if all seems well: the heart can falter later, and a burn can run deep under a small mark.", "a power company's and a power board's page on shocks: always see a doctor; the heart: a childcare page; depth of the burn: ERC guidelines 2021, from memory"},
			{"If you had the shock yourself, stop work, sit down, tell somebody, and do not stay alone or drive.", Practice},
			{"When the current is off, cool a burn under cool running water for 20 minutes, well away from anything electric.", nhsBurns + "; away from the current: " + Practice},
			{"Leave the machine unplugged until an electrician has tested it.", Practice},
		},
	},
	{
		Key: "hurt", Aliases: []string{"injured", "injury", "fall", "fainted"}, Title: "Somebody is hurt in another way",
		Now:  Line{"Stop work and switch off machine, torch and current; then see whether the person answers and breathes normally.", nhsAid + ": danger first, then response and breathing; what to switch off: " + Practice},
		Call: Line{emergency + " if the person does not answer, has chest pain, a fit or trouble with breathing, bleeds heavily, cannot move or feel a limb, or is drowsy, confused or vomits after a blow to the head. When in doubt, call.", redCross + "; the head: " + headBlow},
		Then: []Line{
			notBreathing,
			onTheSide,
			{"If somebody faints, or feels dizzy or sick, where something burns, melts or gives off fumes, it may be the air. Get out to fresh air only if you need not breathe the gas yourself, and type cautions fumes.", "P304+P340, " + clpLabel + "; when to think of it: " + Practice},
			{"Chest pain may be the heart: stop, sit down on the floor with the back against a wall, and call.", redCross},
			{"Heavy bleeding: press hard on it with something clean, and type cautions cut.", bleeding},
			{"After a fall from a height, or with pain in the neck or back: keep still, and let nobody move or sit up the person unless danger threatens.", "a clinic's page on head trauma; " + ercAid},
			{"After a blow to the head: stop work, do not stay alone, and see a doctor today. Drowsiness, vomiting, a headache that grows, confusion, or blood or clear fluid from ear or nose: call at once.", headBlow},
			{"Something in the nose or ear: do not dig, poke or rinse; see a doctor today. A magnet or a button battery: go to hospital now.", "a first-aid trainer's page on the ear: do not try to remove it; the rest: common first-aid advice, from memory"},
			{"Broken, crushed or badly twisted: keep it still as it lies, do not straighten it, take off rings and watch before it swells, cool it with ice wrapped in a cloth, and see a doctor.", "a first-aid trainer's page on sprains: rest, ice; not straightened: " + ercAid + "; rings: " + nhsBurns},
			{"Ring stuck on a swelling finger: hold the hand up and cool it. Finger numb, blue or white: go to hospital, or call the fire brigade, who cut rings off.", "common first-aid advice, from memory"},
			{"Swelling of lips, tongue or throat after a sting: call, and let the person use an adrenaline injector if they carry one.", nhsAid + ": anaphylaxis"},
			{"Give nothing to eat or drink until a doctor has seen the person.", "a page on electric shock and one on head injuries; " + Practice},
		},
	},
	{
		Key: "fire", Aliases: []string{"flames"}, Title: "Something burns in the workshop",
		Now:  Line{"Get everybody out now, shut the door behind you, and call from outside.", fireAdvice},
		Call: Line{"Call the fire brigade or your local emergency number (112, 999, 911 ...), and say if there are gas cylinders and which.", fireAdvice},
		Then: []Line{
			{"A torch, hose or regulator that burns: close the cylinder's valve only if you can reach it without going near the flame; without gas the fire goes out. If not, leave it and get out.", fireAdvice},
			{"Never go near a cylinder that fire has heated, above all acetylene: it may burst hours later. Keep everybody far away and tell the fire brigade.", fireAdvice},
			{"Only a fire no larger than a waste bin, with the way out behind you: smother burning alcohol, wax or oil with a lid or fire blanket, or use a dry powder extinguisher; never pour water on it. If it is not out in a few seconds, get out.", fireAdvice},
			{"Electricity: switch it off at the main switch if that is on your way; no water on it.", fireAdvice},
			{"Burning titanium, magnesium or aluminium dust: dry sand or a class D extinguisher only, never water.", fireAdvice},
			{"Somebody's clothes or hair on fire: stop, drop and roll, or smother the flames with a heavy blanket; then type cautions burn.", fireAdvice},
			{"Do not go back in for anything.", fireAdvice},
		},
	},
}

// FirstAids lists what first aid there is.
func FirstAids() []FirstAid { return slices.Clone(firstAid) }

// FirstAidFor finds first aid by its key or one of its aliases.
func FirstAidFor(word string) (FirstAid, bool) {
	for _, f := range firstAid {
		if f.Key == word || slices.Contains(f.Aliases, word) {
			return f, true
		}
	}
	return FirstAid{}, false
}

// NotADoctor ends first aid.
const NotADoctor = "If you are not sure, call your local emergency number or poison centre: they tell you what to do."

// Lines are all lines of first aid in the order in which they are read.
func (f FirstAid) Lines() []Line {
	lines := []Line{f.Now, f.Call}
	return append(append(lines, f.Then...), f.Label...)
}
