package discord

import (
	"strings"

	"guildhand/bot/requests/words"
)

// translation is a description in the languages in which its terms are sure.
type translation struct{ german, french, spanish string }

// translations are by the English text that they translate, whose range, where it
// has one, is added. Names of commands and options stay English: they are what
// is typed. A term that has no sure counterpart leaves its description English.
var translations = map[string]translation{
	// Requests.
	"the flat blank of a tapered setting for a faceted stone, from sheet": {
		"der Zuschnitt einer konischen Zarge für einen facettierten Stein, aus Blech",
		"le développé d'un chaton conique pour une pierre facettée, à découper dans une plaque",
		"el desarrollo plano de un engaste cónico para una piedra facetada, de chapa",
	},
	"a cabochon's bezel: strip, back plate, step or bearing wire, top edge": {
		"eine Zarge für einen Cabochon: Streifen, Bodenplatte, Auflage, Oberkante",
		"la bâte d'un cabochon : bande, fond, appui intérieur (bande ou fil), bord supérieur",
		"el bisel de un cabujón: tira, base, escalón o hilo de apoyo, borde superior",
	},
	"where to saw, file and drill a collet into prongs, drawn on its blank": {
		"wo eine Zarge zu Krappen gesägt, gefeilt und gebohrt wird, auf dem Zuschnitt gezeichnet",
		"où scier, limer et percer un chaton pour en faire des griffes, dessiné sur son développé",
		"dónde serrar, limar y taladrar un engaste para hacer garras, dibujado en su desarrollo",
	},
	"a ring from one size to another: what to add or take out, and whether it may be stretched": {
		"einen Ring weiten oder enger machen: was dazukommt oder wegfällt, und ob man ihn dehnen darf",
		"une bague d'une taille à l'autre : quoi ajouter ou retirer, et si on peut l'étirer",
		"un anillo de una talla a otra: qué añadir o quitar, y si se puede estirar",
	},
	"a thickness between gauge number, mm and inch": {
		"eine Dicke als Gauge-Nummer, in mm und in Zoll",
		"une épaisseur en numéro de jauge, en mm et en pouces",
		"un espesor en número de calibre, en mm y en pulgadas",
	},
	"mass and cost of a piece of stock: sheet, wire, tube, disc, a collet's blank": {
		"Gewicht und Kosten eines Stücks: Blech, Draht, Rohr, Ronde, Zuschnitt einer Zarge",
		"poids et coût d'une pièce : plaque, fil, tube, disque, développé d'un chaton",
		"peso y coste de una pieza: chapa, hilo, tubo, disco, desarrollo de un engaste",
	},
	"annealing, soldering and quenching figures of an alloy, hazards first": {
		"Werte zum Glühen, Löten und Abschrecken einer Legierung, Gefahren zuerst",
		"valeurs de recuit, de soudure et de refroidissement d'un alliage, les dangers d'abord",
		"valores de recocido, soldadura y enfriamiento de una aleación, primero los peligros",
	},
	"first aid (eyes, skin, burn, swallowed, fumes, cut, shock, hurt) and the safety notes of a job": {
		"Erste Hilfe (Augen, Haut, Verbrennung, Gift, Dämpfe, Schnitt, Strom, verletzt) und Sicherheit",
		"premiers secours (yeux, peau, brûlure, poison, vapeurs, coupure, décharge, blessé) et sécurité",
		"primeros auxilios (ojos, piel, quemadura, veneno, vapores, corte, descarga, herido) y seguridad",
	},
	"what went wrong at the bench: a sign, its likely causes, what to do": {
		"was am Werkbrett schiefging: ein Anzeichen, wahrscheinliche Ursachen, was zu tun ist",
		"ce qui a mal tourné à l'établi : un signe, ses causes probables, que faire",
		"qué salió mal en el banco: una señal, sus causas probables, qué hacer",
	},
	"a class: cut list, sheet layout, mass, cost and handouts for several makers": {
		"ein Kurs: Zuschnittliste, Blechaufteilung, Gewicht, Kosten und Arbeitsblätter für mehrere",
		"un cours : liste de découpe, plan de coupe, poids, coût et fiches pour plusieurs personnes",
		"una clase: lista de corte, distribución en la chapa, peso, coste y hojas para varias personas",
	},
	"the defaults of a maker, a channel or the guild: metal, gauge, units, paper": {
		"Voreinstellungen von dir, des Kanals oder der Gilde: Metall, Dicke, Einheiten, Papier",
		"les valeurs par défaut d'une personne, du salon ou de la guilde : métal, épaisseur, unités, papier",
		"los valores por defecto de una persona, del canal o del gremio: metal, espesor, unidades, papel",
	},
	"what you can ask, and how": {"was du fragen kannst, und wie", "ce qu'on peut demander, et comment", "qué puedes preguntar, y cómo"},
	"stop your long work in this channel, such as a kit": {
		"deine lange Berechnung in diesem Kanal abbrechen",
		"arrêter ton long calcul dans ce salon",
		"detener tu cálculo largo en este canal",
	},
	askSummary: {
		"frag in einer Zeile, auf Englisch",
		"pose ta question en une ligne, en anglais",
		"pregunta en una línea, en inglés",
	},
	// Subcommands.
	"your defaults here":              {"deine Voreinstellungen hier", "tes valeurs par défaut ici", "tus valores por defecto aquí"},
	"what is kept for you":            {"was für dich gespeichert ist", "ce qui est gardé pour toi", "lo que se guarda para ti"},
	"what is stored about you":        {"was über dich gespeichert ist", "ce qui est enregistré sur toi", "lo que se guarda sobre ti"},
	"remove what is stored about you": {"löschen, was über dich gespeichert ist", "supprimer ce qui est enregistré sur toi", "borrar lo que se guarda sobre ti"},
	"the house rules of this channel": {"die Hausregeln dieses Kanals", "les règles de ce salon", "las reglas de este canal"},
	"take a default off a bench":      {"eine Voreinstellung entfernen", "retirer une valeur par défaut", "quitar un valor por defecto"},
	"forget a correction":             {"eine Korrektur löschen", "oublier une correction", "olvidar una corrección"},
	"for teachers: entries as a file": {"für Lehrende: Einträge als Datei", "pour les enseignants : les entrées dans un fichier", "para docentes: las entradas en un archivo"},
	"for teachers: pin a house rule, which later answers state": {
		"für Lehrende: eine Hausregel anheften, die spätere Antworten nennen",
		"pour les enseignants : épingler une règle, que les réponses suivantes rappellent",
		"para docentes: fijar una regla, que dirán las respuestas siguientes",
	},
	// Options.
	"depth of the stone from table to culet, mm": {
		"Tiefe des Steins von der Tafel bis zur Kalette, mm",
		"profondeur de la pierre de la table à la colette, mm",
		"profundidad de la piedra de la tabla a la punta inferior, mm",
	},
	"the metal: sterling, 18k-yellow, copper ...": {
		"das Metall: sterling, 18k-yellow, copper ...", "le métal : sterling, 18k-yellow, copper ...", "el metal: sterling, 18k-yellow, copper ...",
	},
	"thickness of the sheet: 22ga, 0.64 mm or .025 in": {
		"Dicke des Blechs: 22ga, 0.64 mm oder .025 in", "épaisseur de la plaque : 22ga, 0.64 mm ou .025 in", "espesor de la chapa: 22ga, 0.64 mm o .025 in",
	},
	"the stone seen from above: oval, pear, emerald ...": {
		"der Stein von oben gesehen: oval, pear, emerald ...", "la pierre vue de dessus : oval, pear, emerald ...", "la piedra vista desde arriba: oval, pear, emerald ...",
	},
	"length x width of the stone in mm; a tapered baguette has a third side": {
		"Länge x Breite des Steins in mm; der Trapez-Baguetteschliff hat eine dritte Seite",
		"longueur x largeur de la pierre en mm ; une baguette trapèze a un troisième côté",
		"largo x ancho de la piedra en mm; una baguette trapecio tiene un tercer lado",
	},
	"show lengths in mm or in inches":                {"Längen in mm oder in Zoll zeigen", "montrer les longueurs en mm ou en pouces", "mostrar las longitudes en mm o en pulgadas"},
	"how many makers are in the class":               {"wie viele am Kurs teilnehmen", "combien de personnes suivent le cours", "cuántas personas hay en la clase"},
	"the size that the ring has: us 6, uk N, iso 54": {"die Größe, die der Ring hat: us 6, uk N, iso 54", "la taille actuelle de la bague : us 6, uk N, iso 54", "la talla que tiene el anillo: us 6, uk N, iso 54"},
	"the size that it shall have":                    {"die Größe, die er haben soll", "la taille voulue", "la talla que debe tener"},
	lineSummary:                                      {"die ganze Frage", "toute la question", "toda la pregunta"},
	privateSummary:                                   {"die Antwort nur dir zeigen", "ne montrer la réponse qu'à toi", "mostrar la respuesta solo a ti"},
	formSummary:                                      {"in einem Formular ausfüllen", "remplir un formulaire", "rellenar un formulario"},
}

// translated gives a description's translations by Discord's names of languages;
// nil where there are none. suffix is the option's range in English.
func translated(text, suffix string) map[string]string {
	t, ok := translations[text]
	if !ok {
		return nil
	}
	suffix = strings.Replace(suffix, " to ", "–", 1)
	add := func(s string) string {
		s = words.Capital(s)
		if length(s)+length(suffix) > maxCommandText {
			return clip(s, maxCommandText)
		}
		return s + suffix
	}
	spanish := add(t.spanish)
	return map[string]string{"de": add(t.german), "fr": add(t.french), "es-ES": spanish, "es-419": spanish}
}
