package cautions

import (
	"regexp"
	"slices"

	"guildhand/calc/stock"
	"guildhand/calc/stone"
)

// holds accepts alloys with the element in their composition.
func holds(element string) func(stock.Alloy) bool {
	word := regexp.MustCompile(`\b` + element + `\b`)
	return func(a stock.Alloy) bool { return word.MatchString(a.Composition) }
}

// inFamily accepts alloys of a family.
func inFamily(families ...stock.Family) func(stock.Alloy) bool {
	return func(a stock.Alloy) bool { return slices.Contains(families, a.Family) }
}

func both(p, q func(stock.Alloy) bool) func(stock.Alloy) bool {
	return func(a stock.Alloy) bool { return p(a) && q(a) }
}

// anyStone accepts every known stone: none is better for a torch.
func anyStone(stone.Gem) bool { return true }

// acidEats are the stones that pickle attacks, by their key in calc/stone.
var acidEats = []string{"pearl", "turquoise", "peridot"}

// torch are the jobs that put a flame to the piece.
var torch = []Job{Soldering, Annealing}

// Sources that several cautions share. P, H and EUH statements are label text
// of Regulation (EC) No 1272/2008 (CLP).
const (
	clp         = "Regulation (EC) No 1272/2008"
	hotWork     = "29 CFR 1910.252(a)(2), paragraph from memory: combustibles 35 ft (11 m) away or covered, fire watch half an hour after"
	eyeShades   = "29 CFR 1910.133(a)(5), least filter shades: torch soldering 2, torch brazing 3"
	pressRules  = "29 CFR 1910.212, which covers hydraulic presses (OSHA interpretation of 4 October 1983)"
	zincLimit   = "29 CFR 1910.1000: zinc oxide fume 5 mg/m³; AWS fact sheet 25 on metal fume fever; NTIS PB97-206379: fever in 10 of 12 after 2 hours at 2.5 to 5 mg/m³"
	silicaLimit = "29 CFR 1910.1053(c): 50 µg/m³ of respirable crystalline silica over 8 hours; bench forum, threads on investment and silicosis"
)

// hazards is the table of All, the worst first: what kills, what maims or
// poisons, what burns or cuts, what ruins the piece.
var hazards = []Caution{
	{
		Key: "closed-form", Hazard: "air or water shut in a hollow form", Harm: "the form bursts in the flame and throws hot metal into the maker's face",
		Short:  "Drill a vent hole into a closed form, point it away from you, and dry it without a flame.",
		Full:   "Never heat a closed hollow form. Drill a vent hole first, turn it away from your face, and leave it open until the last heat is done. Rinse water creeps in through the smallest gap and bursts a form harder than air does: dry the piece right through before every heat, in warmth below 90 °C and without a flame, until no more water comes out.",
		Source: "bench forum and two studio pages on hollow forms that burst; a form at 780 °C holds 3.6 times its cold pressure, and 1 mg of water in a cubic centimetre adds 4.9 bar (ideal gas law)",
		When:   When{Jobs: torch, Closed: true},
	},
	{
		Key: "water-under-metal", Hazard: "water under molten metal", Harm: "steam throws molten metal at everybody in the room",
		Short:  "Keep moulds, crucible, tools and floor bone dry: water under molten metal explodes.",
		Full:   "Keep moulds, crucible, tongs, ladle and floor bone dry while metal is molten, and preheat whatever touches the melt: water under molten metal turns to steam and throws it. Keep the quench bucket away from the pour. Quench the flask only when the metal in it is solid and no longer glows.",
		Source: Practice,
		When:   When{Jobs: []Job{Casting}},
	},
	{
		Key: "cadmium", Hazard: "cadmium in old or unmarked solder", Harm: "its fume can kill whoever breathes it, hours later",
		Short:  "Use only solder sold as cadmium-free, and have the fumes drawn away from your face.",
		Full:   "Never solder with filler that holds cadmium, and never heat it: the fume has no warning smell and can kill hours later. Treat old, unmarked or found solder as cadmium solder and do not use it: take it to a hazardous-waste collector. An old seam may hold cadmium too: do not heat a repair whose solder you do not know.",
		Source: "EUH207, " + clp + "; 29 CFR 1910.1027(c): 5 µg/m³ over 8 hours; the delay: appendix A to 1910.1027, from memory",
		When:   When{Jobs: []Job{Soldering}},
	},
	{
		Key: "gas", Hazard: "gas that leaks or burns back", Harm: "fire or explosion hurts everybody in the room",
		Short:  "Test gas joints with leak-test solution, never a flame; keep oil off oxygen fittings.",
		Full:   "Chain gas cylinders upright, keep oxygen away from fuel gas, fit flashback arrestors, and test hoses and joints with leak-test solution, never with a flame. Keep oil and grease off oxygen fittings. Keep the outlet gauge of the acetylene regulator at 15 psi (1 bar) or less. Light the torch with a spark lighter, pointed away from you and the cylinders. Shut the torch down in the order that its maker gives.",
		Source: "P244, " + clp + "; Cal. 8 CCR 4845(b), (e); 29 CFR 1910.253(a)(2): acetylene at most 15 psig; 1910.253(b)(4)(iii): oxygen 20 ft from fuel gas or behind a barrier",
		When:   When{Jobs: []Job{Soldering}},
	},
	{
		Key: "press-hands", Hazard: "hands in a closing press", Harm: "crushes fingers and hands",
		Short:  "Keep both hands out from under the ram, shut the guard, and obey the lowest rated load.",
		Full:   "Keep both hands out from under the ram; always shut the guard or use two-hand control; your local rules may ask for more. Never straighten a stack under load: release the pressure and raise the ram first. Stay below the rated load of the press, the block and the punch. A load given here is a rough estimate and never a target: start far below it, press in small steps and look after each one.",
		Source: pressRules,
		When:   When{Jobs: []Job{Press}},
	},
	{
		Key: "press-burst", Hazard: "hardened tooling loaded off centre", Harm: "pieces of steel or the whole stack shoot out at the maker",
		Short:  "Raise and stop the ram before you centre block and punch, then stand to one side.",
		Full:   "Centre the block and punch under the ram: a stack that leans can shoot out, and hardened steel that is loaded off centre can burst. Keep the guard in place, wear eye protection with side shields and stand to one side. Look over hoses, frame and gauge before use.",
		Source: pressRules + "; the centring: " + Practice,
		When:   When{Jobs: []Job{Press}},
	},
	{
		Key: "press-oil", Hazard: "a jet from a leaking hydraulic hose", Harm: "oil goes through the skin, and the hand may be lost",
		Short:  "Release the pump's pressure before you look for an oil leak; never feel for it by hand.",
		Full:   "Release the pressure before you look for a hydraulic leak, and never feel for it with your hand. Oil under pressure goes through skin and leaves a small mark. Whoever is hit needs a surgeon at once, however small the mark.",
		Source: Practice,
		When:   When{Jobs: []Job{Press}},
	},
	{
		Key: "mixing", Hazard: "chemicals that react with each other", Harm: "poisonous gas kills everybody in the room",
		Short:  "Read the data sheets: mix two chemicals only if both say yes; silence means no.",
		Full:   "Read the data sheets of two chemicals before you mix them. Mix them only if both say that you may; if a sheet says nothing, do not. Keep acids and pickle away from bleach, cyanide, ammonia, peroxide and liver of sulphur: the gases can kill. Cyanide baths are for licensed shops only.",
		Source: "EUH031 and EUH032, " + clp + ": contact with acids liberates (very) toxic gas",
		When:   When{Jobs: []Job{Chemicals}},
	},
	{
		Key: "silica", Hazard: "silica dust of investment", Harm: "scars the lungs of whoever breathes it, for good",
		Short:  "Wear a respirator to mix investment, quench and break out, and break out only when wet.",
		Full:   "Wear a respirator that fits while you weigh and mix investment, quench the flask and break it out: its fine silica scars lungs for good, and quenching and breaking out are the worst moments. Break out wet, wipe up wet, and never sweep or blow the dust.",
		Source: silicaLimit,
		When:   When{Jobs: []Job{Casting}},
	},
	{
		Key: "reactive-dust", Hazard: "fine dust of titanium, niobium or aluminium", Harm: "a spark sets it alight and it burns the maker; water makes it worse",
		Short:  "Keep sparks, water and an ordinary extractor off this dust; smother fire with dry sand.",
		Full:   "Brush up dust and fine chips of titanium, niobium and aluminium gently and often, never blow them or use a shop vacuum, store them dry and apart, and keep sparks and flames away. Smother burning dust with dry sand or a class D extinguisher; water feeds the fire. Ask the maker of your dust extractor before you polish them.",
		Source: Practice,
		When:   When{Jobs: []Job{Files, Saw, Drill, Polishing}, Alloy: inFamily(stock.Titanium, stock.Niobium, stock.Aluminium)},
	},
	{
		Key: "white-heat", Hazard: "glare of platinum metals at working heat", Harm: "burns the eyes of whoever looks at it, for good",
		Short:  "Wear a welding lens of shade 5 or more, darker to melt: the glare burns eyes for good.",
		Full:   "Wear a welding lens of shade 5 or 6, or a darker one if the manufacturer of your torch names it, and never a lighter one, whenever you solder, weld, anneal or melt a platinum metal: the glare burns eyes for good. Sunglasses do not help. Screen the work from others in the room.",
		Source: "a bench article on sizing platinum rings: shade 5 to 6; an alloy maker's page on palladium; " + eyeShades,
		When:   When{Jobs: []Job{Soldering, Annealing, Casting}, Alloy: inFamily(stock.Platinum)},
	},
	{
		Key: "zinc-fume", Hazard: "zinc smoke from overheated brass, bronze and nickel silver", Harm: "gives whoever breathes it a fever some hours later",
		Short:  "Extract the smoke, and do not overheat this metal: breathing zinc smoke brings fever.",
		Full:   "Use fume extraction and do not overheat alloys that hold zinc when you melt them: their white smoke gives metal fume fever some hours later, and it has begun at or under the legal limit in people who are not used to it. At white smoke take the heat away, set the crucible down on its stand and leave the smoke. See a doctor if you feel ill.",
		Source: zincLimit,
		When:   When{Jobs: []Job{Casting}, Alloy: both(inFamily(stock.Copper), holds("Zn"))},
	},
	{
		Key: "pour", Hazard: "molten metal that splashes", Harm: "burns face, hands and feet to the bone",
		Short:  "Wear a shaded face shield, leather apron, gauntlets and leather shoes to melt and pour.",
		Full:   "Wear a face shield with the filter shade for the metal, a leather apron, gauntlets and closed leather shoes to melt and pour, and nothing synthetic. Put nothing into a melt unless you know what it is and that it is dry: no cadmium, lead, zinc scrap or beryllium copper. Run a centrifuge guarded and balanced, with everybody out of its plane.",
		Source: "P280, " + clp + "; " + eyeShades + "; the rest: " + Practice,
		When:   When{Jobs: []Job{Casting}},
	},
	{
		Key: "burnout", Hazard: "smoke and carbon monoxide from wax that burns out", Harm: "poisons everybody in the room",
		Short:  "Duct the burnout kiln's smoke outdoors: it holds carbon monoxide, which no filter stops.",
		Full:   "Lead the burnout kiln's smoke outdoors by a duct, or by a hood that is ducted outdoors: burning wax gives off carbon monoxide. Keep a carbon monoxide alarm in the room. Never take gypsum investment above 750 °C: it breaks down and gives off sulphur dioxide.",
		Source: "bench forum: gypsum breaks down above about 750 °C; the rest: " + Practice,
		When:   When{Jobs: []Job{Casting}},
	},
	{
		Key: "wax-fire", Hazard: "hot wax that catches fire", Harm: "burns skin; water throws the burning wax about",
		Short:  "Melt wax by thermostat, away from flames; smother burning wax, never put water on it.",
		Full:   "Melt wax in a pot with a thermostat, away from open flames, with its lid at hand. If it burns, put the lid on and switch it off; never put water on burning wax, which throws it about. Hot wax sticks to skin: cool it under running water and do not pull it off.",
		Source: Practice,
		When:   When{Jobs: []Job{Wax}},
	},
	{
		Key: "polish-catch", Hazard: "a running wheel that catches", Harm: "pulls in hair, sleeves and fingers, and throws the piece",
		Short:  "Take gloves off and tie hair back before the wheel runs; never hold loose chain to it.",
		Full:   "Before you start the wheel, and for as long as it runs, tie back hair and sleeves, and take off gloves, scarves and jewellery: it catches them and pulls the hand in. Hold the work below the centre line, so that what is torn away flies down and away from you. Never wrap a chain or a band round a finger: polish chain in a tumbler, or fixed on a board at both ends. Press the work on lightly, and only at full speed; never go over the wheel's rated speed.",
		Source: Practice,
		When:   When{Jobs: []Job{Polishing}},
	},
	{
		Key: "polish-dust", Hazard: "dust of compounds and metal", Harm: "harms the lungs of whoever breathes it",
		Short:  "Wear eye protection and a dust mask that fits, and run an extractor fit for this metal.",
		Full:   "Wear eye protection and a dust mask that fits, and run the extractor: compounds can hold silica, and metal dust can hold nickel, copper or beryllium. Do not work beryllium copper at all.",
		Source: silicaLimit + "; beryllium: 29 CFR 1910.1024, 0.2 µg/m³",
		When:   When{Jobs: []Job{Polishing}},
	},
	{
		Key: "flux-fume", Hazard: "fluoride flux that is overheated", Harm: "burns the eyes, skin and lungs of whoever is near",
		Short:  "Use fume extraction and do not overheat flux: fluoride smoke burns eyes and lungs.",
		Full:   "Use local extraction, do not overheat flux and do not breathe its smoke: fluoride fluxes give off gases that burn eyes, skin and lungs. Fluoride on skin goes deeper than it looks: wash at once and see a doctor. Do not solder in a bedroom, a kitchen or any room where people sleep or eat. Borax and boric acid can harm fertility and the unborn child: keep the powder off hands and out of the air.",
		Source: "flux maker's data sheet: fluoride flux, HF and BF3 when overheated; 29 CFR 1910.252(c)(1), from memory; borates: Repr. 1B, H360FD, Regulation (EU) 2021/849; the rooms: " + Practice,
		When:   When{Jobs: []Job{Soldering}},
	},
	{
		Key: "stone-heat", Hazard: "a stone near the flame", Harm: "cracks, bursts or loses its colour, and splinters fly at the eyes",
		Short:  "Take the stone out before you light the torch, and set it after the last heat.",
		Full:   "Take every stone out before you light the torch, and set it after the last soldering. Opal, pearl, coral, amber, turquoise, lapis, malachite, emerald, tanzanite, peridot and filled or glued stones are ruined by heat, and some burst. If a stone cannot come out, do not heat the piece: find a way without a flame, or give it to somebody who works with a laser. Never quench a hot stone.",
		Source: "D. D. Martin, \"Gemstone durability\", Gems & Gemology 23 (1987), volume from memory, opening read; bench and gem forums",
		When:   When{Jobs: []Job{Soldering, Annealing, Stones}, Stone: anyStone},
	},
	{
		Key: "quench-cracks", Hazard: "white gold or nickel silver that is quenched hot", Harm: "the piece cracks, at once or in wear",
		Short:  "Let this metal cool in air a minute past the last glow: it cracks if quenched hot.",
		Full:   "Let nickel alloys cool in air until you see no glow in a dark corner, and for a minute more: quenched hot, nickel white gold and nickel silver crack, some of them months later. Soften them before you set stones.",
		Source: "bench forum: white gold cracks from thermal shock above about 480 °C; an alloy maker's heat-treating page: air cool; S. Grice, Santa Fe Symposium 2002, abstract: stress corrosion of 14k nickel white",
		When:   When{Jobs: torch, Alloy: holds("Ni")},
	},
	{
		Key: "slow-brittle", Hazard: "red gold that cools slowly", Harm: "the piece turns brittle and cracks when it is formed",
		Short:  "Quench red gold in water as its glow goes, unless it holds a stone or is hollow.",
		Full:   "Quench solid red and rose gold, with no stone in it and not hollow, vented or closed, in water as soon as its glow goes, while it is above about 430 °C, after soldering too: cooled slowly, it orders, turns brittle and cracks in forming.",
		Source: "P. Rowe, bench forum; A. S. McDonald and G. H. Sistare, Gold Bulletin 11 (1978), opening read, volume from memory",
		When:   When{Jobs: torch, Alloy: inFamily(stock.RoseGold)},
	},
	{
		Key: "zinc-torch", Hazard: "zinc smoke from brass, bronze and nickel silver under the torch", Harm: "gives whoever breathes it a fever some hours later",
		Short:  "Extract the smoke, and stop heating at white smoke: zinc or flux, it makes you ill.",
		Full:   "Use fume extraction when you heat brass, bronze and nickel silver, and take the flame away at the first white smoke: it is zinc, and gives metal fume fever some hours later. See a doctor if you feel ill.",
		Source: zincLimit,
		When:   When{Jobs: torch, Alloy: both(inFamily(stock.Copper), holds("Zn"))},
	},
	{
		Key: "hot-weak", Hazard: "germanium silver moved while it glows", Harm: "the piece cracks or breaks",
		Short:  "Support this silver and leave it still until it is black: it cracks if moved hot.",
		Full:   "Support germanium silver all round in the flame, and leave it still until it is black before you move or quench it: it is weak and cracks at red heat.",
		Source: Practice,
		When:   When{Jobs: torch, Alloy: holds("Ge")},
	},
	{
		Key: "contaminates", Hazard: "a speck of pewter or aluminium on silver or gold", Harm: "eats holes into the piece at the next heat",
		Short:  "Keep separate files, bench and torch block for this metal: a speck pits silver or gold.",
		Full:   "Keep a bench, files and a torch block for pewter and aluminium alone: one speck on silver or gold eats into it at annealing heat. Old pewter may hold lead: do not melt or file it.",
		Source: "T. Fejka, SNAG Tech News, August 2009: pewter; aluminium: " + Practice,
		When:   When{Jobs: []Job{Soldering, Annealing, Files, Saw, Casting}, Alloy: inFamily(stock.Pewter, stock.Aluminium)},
	},
	{
		Key: "platinum-dirt", Hazard: "traces of other metals or carbon on hot platinum", Harm: "the piece turns brittle",
		Short:  "Use clean tools and a block kept for platinum metals: traces and soot embrittle them.",
		Full:   "Use clean tools and a soldering block kept for platinum metals, and a sharp, slightly oxidising flame; no charcoal, no steel tweezers in the flame, no acetylene: carbon, iron, lead, aluminium and silver solder embrittle them.",
		Source: "two bench articles on platinum (sizing; platinum pages of a handbook publisher); bench forum on brittle platinum seams",
		When:   When{Jobs: torch, Alloy: inFamily(stock.Platinum)},
	},
	{
		Key: "pickle-splash", Hazard: "acid that splashes or spits", Harm: "burns the eyes of the maker and whoever stands near",
		Short:  "Wear goggles and gloves at the pickle, and let metal cool before it goes in.",
		Full:   "Wear goggles, gloves and an apron: pickle causes serious eye damage. Know where the eyewash is. Let the metal cool, rinse it, then pickle it: hot metal throws acid about as spray and mist. When you mix pickle, add the acid or the salt slowly to the water, never water to acid.",
		Source: "H318, P280 and P305+P351+P338 of sodium hydrogensulfate, CLP index 016-046-00-X; ICSC 0362: sulfuric acid and water; 29 CFR 1910.151(c): eyewash where there are corrosives; hot metal in pickle: " + Practice,
		When:   When{Jobs: []Job{Pickle}},
	},
	{
		Key: "pickle-stone", Hazard: "pickle on a soft stone", Harm: "acid eats the stone",
		Short:  "Keep this stone out of pickle, acid and ultrasonic baths: acid eats it.",
		Full:   "Keep pearl, coral, shell, turquoise, lapis, malachite, peridot and filled stones out of pickle, acid and ultrasonic baths.",
		Source: Practice,
		When:   When{Jobs: []Job{Pickle}, Stone: func(g stone.Gem) bool { return slices.Contains(acidEats, g.Key) }},
	},
	{
		Key: "pickle-steel-tools", Hazard: "acid left on the piece", Harm: "rusts the block, punch and press",
		Short:  "Rinse and dry the piece before it touches steel tools: acid rusts block and punch.",
		Full:   "Rinse the piece well, neutralise it and dry it before it touches a block, a punch or a mandrel: traces of acid rust steel tools.",
		Source: Practice,
		When:   When{Jobs: []Job{Pickle}, With: Press},
	},
	{
		Key: "pickle-iron", Hazard: "iron in the pickle", Harm: "plates copper on the work",
		Short:  "Use copper, brass or plastic tongs in pickle, and take off binding wire and springs.",
		Full:   "Use copper, brass or plastic tongs in pickle, and take off binding wire and steel springs first: iron that touches the work plates copper on it. Take the iron out and the plating stops.",
		Source: "bench forum and a school's page on copper plating in pickle",
		When:   When{Jobs: []Job{Pickle}},
	},
	{
		Key: "pickle-pot", Hazard: "warm pickle that fumes or boils over", Harm: "acid mist harms the lungs of everybody in the room",
		Short:  "Keep warm pickle covered, labelled and ventilated, and never let it boil.",
		Full:   "Keep warm pickle covered, labelled and ventilated, and never let it boil. Top up only dilute pickle that is switched off and cold, with a little water at a time. Never add water to strong acid or to pickle that you have just made. Give spent pickle, which holds copper, to a licensed collector.",
		Source: "P260, P271 and P501, " + clp,
		When:   When{Jobs: []Job{Pickle}},
	},
	{
		Key: "acid-order", Hazard: "water poured into strong acid", Harm: "boils and throws acid at the face",
		Short:  "Wear goggles and gloves, and add acid slowly to water, never water to acid.",
		Full:   "Read the safety data sheet before you open the bottle. Add acid slowly to water, never water to acid. Wear goggles and gloves that resist the chemical. Use etchants, nitric acid and liver of sulphur in a fume hood or out of doors. Know where the eyewash and the running water are.",
		Source: "ICSC 0362 (sulfuric acid: violent reaction with water), note wording from memory; P271 and P280, " + clp,
		When:   When{Jobs: []Job{Chemicals}},
	},
	{
		Key: "bottles", Hazard: "bottles without labels", Harm: "somebody drinks it, spills it or pours it into the wrong bath",
		Short:  "Label every container, use none that held food, and lock acids up apart from the rest.",
		Full:   "Label every container with what it holds, use none that held food or drink, and lock acids, bleach, peroxide, cyanide and liver of sulphur up apart from one another. Keep used peroxide under a vented cap, because it gives off oxygen and bursts a tight bottle, and never pour it back. Give waste to a licensed collector; liquid that holds metal does not go down the drain.",
		Source: "P234, P270, P405 and P501, " + clp + "; peroxide: " + Practice,
		When:   When{Jobs: []Job{Chemicals}},
	},
	{
		Key: "torch-fire", Hazard: "flame, hair, sleeves and what lies near", Harm: "burns the maker and sets the room on fire",
		Short:  "Tie hair and sleeves back, wear eye protection, stay half an hour after the last flame.",
		Full:   "Tie back hair and sleeves and wear natural fibres. Wear eye protection with the filter shade that the torch's maker asks for. Work on a fireproof bench with what burns moved 11 m (35 ft) away or covered. Keep an extinguisher within reach, never leave a lit torch, and stay half an hour after the last flame.",
		Source: eyeShades + "; " + hotWork,
		When:   When{Jobs: torch},
	},
	{
		Key: "hot-metal", Hazard: "hot metal that has stopped glowing", Harm: "burns the hand of whoever picks it up",
		Short:  "Move the piece with tongs: metal that has stopped glowing still burns you.",
		Full:   "Move the piece with tongs, and lay it on a place for hot work that everybody knows: metal that has stopped glowing still burns you. Quench only alloys that allow it (type heat and the alloy's name), in water, never in pickle. Let hollow pieces cool in air.",
		Source: Practice,
		When:   When{Jobs: torch},
	},
	{
		Key: "coated-metal", Hazard: "zinc, lead or paint on old metal", Harm: "fumes poison whoever breathes them",
		Short:  "Do not heat galvanised, plated, painted or lead-soldered metal: the fumes poison.",
		Full:   "Do not heat galvanised, plated, painted or lead-soldered metal: the fumes poison. Use other metal. Never grind, file or sand lead, cadmium or a coating that you do not know: its dust poisons too. Do not work beryllium copper at all.",
		Source: "29 CFR 1910.252(c)(5) to (9), paragraphs from memory: zinc, lead, beryllium and cadmium want ventilation",
		When:   When{Jobs: []Job{Soldering, Annealing, Casting}},
	},
	{
		Key: "hammer-steel", Hazard: "hardened steel struck by hardened steel, or a mushroomed head", Harm: "splinters fly into the eyes",
		Short:  "Wear eye protection, and strike punches with a soft hammer: hard steel splinters.",
		Full:   "Wear eye protection with side shields. Never strike a hardened punch with a hardened hammer: use a soft or brass-faced one. Grind a mushroomed punch head clean before use: it sheds splinters.",
		Source: "ANSI Z87.1 marks for eye protection; the rest: " + Practice,
		When:   When{Jobs: []Job{Hammer}},
	},
	{
		Key: "hammer-noise", Hazard: "hammer blows near fingers and ears", Harm: "crushes fingers and harms hearing for good",
		Short:  "Wear ear protection, and keep your fingers away from where the blow lands.",
		Full:   "Wear ear protection as well as eye protection: hammering in a small room harms hearing for good. Keep fingers away from where the blow lands, and the block on a firm bench that cannot walk.",
		Source: Practice,
		When:   When{Jobs: []Job{Hammer}},
	},
	{
		Key: "drill-grab", Hazard: "a drill that grabs the sheet", Harm: "the sheet spins like a knife and cuts hands",
		Short:  "Clamp the sheet before you drill it, wear eye protection, and wear no gloves.",
		Full:   "Clamp the sheet before you drill it: a grabbing drill spins it like a knife. Wear eye protection and no gloves, and tie back hair and sleeves. Let the drill stop before you clear its chips.",
		Source: Practice,
		When:   When{Jobs: []Job{Drill}},
	},
	{
		Key: "saw-blade", Hazard: "saw blades that snap and slip", Harm: "pieces hit the eyes, the blade cuts fingers",
		Short:  "Wear eye protection to saw; keep fingers beside the blade's path, never in front.",
		Full:   "Wear eye protection: blades snap. Keep your fingers beside the blade's path, never in front of it, and your face out of its line. Support the sheet on both sides of the cut. Lubricate the blade and let it cut: pressing bends and breaks it.",
		Source: Practice,
		When:   When{Jobs: []Job{Saw}},
	},
	{
		Key: "nickel-dust", Hazard: "dust of alloys that hold nickel", Harm: "harms lungs and gives skin allergies to maker and wearer",
		Short:  "Wear a mask and wash your hands: filing dust of nickel alloys harms lungs and skin.",
		Full:   "Wear a mask, work wet where you can, and wash your hands: filing dust of nickel alloys harms lungs and gives skin allergies. Worn nickel is limited by law in many places: in the European Union to 0.5 µg per cm² a week.",
		Source: "REACH annex XVII, entry 27, from memory; EN 1811: 0.5 µg/cm² a week; P260 and P264, " + clp,
		When:   When{Jobs: []Job{Files, Polishing}, Alloy: holds("Ni")},
	},
	{
		Key: "file-tang", Hazard: "bare tangs and cut edges", Harm: "the tang goes through the palm, edges cut fingers",
		Short:  "Put a handle on every file, and deburr cut edges before you handle the piece.",
		Full:   "Put a handle on every file: a bare tang goes through the palm. Hold the work against the bench pin or in a vice, and push away from your body. Deburr cut edges before you handle or bend a blank: they cut. Brush filings away; do not blow them.",
		Source: Practice,
		When:   When{Jobs: []Job{Files}},
	},
	{
		Key: "stones-torch", Hazard: "stones near the flame", Harm: "crack, burst or lose their colour",
		Short:  "Take diamonds, rubies and sapphires out before the torch too: no stone bears it.",
		Full:   "Take diamonds, rubies and sapphires out before the torch too: uncovered diamond burns in air at red heat, borax flux etches ruby and sapphire, fillings are destroyed, and all crack if they cool suddenly. No rule of colour tells which stones bear heat.",
		Source: "bench and gem forums (flux etches; fillings; contradicted colour rules); " + Practice,
		When:   When{Jobs: []Job{Stones}},
	},
	{
		Key: "stones-acid", Hazard: "acid and ultrasonic baths", Harm: "destroy soft, porous and filled stones",
		Short:  "Keep pearl, coral, turquoise, opal and filled stones out of pickle and ultrasonics.",
		Full:   "Keep pearl, coral, shell, turquoise, lapis, malachite, peridot, opal and filled or oiled stones out of pickle, acid and ultrasonic baths. Keep tanzanite and emerald out of ultrasonic baths.",
		Source: "a stone dealer's page: tanzanite and ultrasonic; the rest: " + Practice,
		When:   When{Jobs: []Job{Stones}},
	},
	{
		Key: "setting-slip", Hazard: "a graver or pusher that slips", Harm: "goes into the hand that holds the piece",
		Short:  "Hold the piece in a clamp, and keep your other hand out of the tool's path.",
		Full:   "Hold the piece in a clamp or setter's wax, and keep the holding hand out of the tool's line: gravers and pushers slip. Rest the thumb of the tool hand on the work. Wear eye protection: stones chip and prongs fly.",
		Source: Practice,
		When:   When{Jobs: []Job{Setting}},
	},
	{
		Key: "class-watch", Hazard: "beginners at saw, torch, press and pickle", Harm: "makers hurt themselves and each other",
		Short:  "Have somebody trained watch the saw, torch, press and pickle the whole time.",
		Full:   "Have somebody trained watch the saw, torch, press and pickle the whole time. How many makers one teacher may watch is for those to say who answer for the room. One torch, one maker; nobody leaves a lit torch or a hot piece.",
		Source: "29 CFR 1910.253(a)(4): gas equipment for people judged competent; the rest: " + Practice,
		When:   When{Jobs: []Job{Class}},
	},
	{
		Key: "class-eyes", Hazard: "blades, splinters and acid that fly", Harm: "hit the eyes of whoever is in the room",
		Short:  "Give everybody in the room eye protection, those who only watch too.",
		Full:   "Give everybody in the room eye protection, those who only watch too: blades snap and pickle splashes.",
		Source: Practice,
		When:   When{Jobs: []Job{Class}},
	},
	{
		Key: "class-exits", Hazard: "an accident in a room that nobody knows", Harm: "help comes late",
		Short:  "Show exits, eyewash, extinguisher, first-aid kit and gas shut-off before you start.",
		Full:   "Show exits, eyewash, extinguisher, first-aid kit, and how gas and power are shut off, before anybody starts. The eyewash is to be reached within ten seconds.",
		Source: "29 CFR 1910.151(c): eyewash where there are corrosives; ANSI Z358.1, from memory: within 10 seconds",
		When:   When{Jobs: []Job{Class}},
	},
	{
		Key: "class-health", Hazard: "fumes, flux, nickel and magnets", Harm: "harm people with asthma, allergies or implants, and the unborn",
		Short:  "Ask before the class about asthma, pregnancy, allergies and implants.",
		Full:   "Ask before the class about asthma, pregnancy, allergies and implants: fumes, borax, nickel, latex and magnetic tools are not for everybody, and a doctor decides. Minors work under the rules of their school and country, and with less: the press, acids and casting may not be for them.",
		Source: "borates: Repr. 1B, H360FD, Regulation (EU) 2021/849; the rest: " + Practice,
		When:   When{Jobs: []Job{Class}},
	},
}
