# All that a person reads, in German. The syntax, the messages and their variables are those of en.ftl,
# where it is said what a message is for.
#
# Begriffe. Aus VDI 2157 (Planetengetriebe, aus dem Gedächtnis): Steg, Sonnenrad, Hohlrad, Planetenrad,
# Planetensatz, Antrieb, Abtrieb, Übersetzung. Dort heißt der Planetenträger Steg, und so heißt er hier
# überall. In der Praxis üblich: kleines und großes Sonnenrad, Ravigneaux-Satz, Stufenplanet,
# Schaltelement, Freilauf, Kraftschluss, verspannt, Blockumlauf, Schaltschema, Stufensprung, Spreizung,
# Blindleistung (Leistung, die im Getriebe umläuft), Zug- und Schubbetrieb, Differenzdrehzahl,
# Festbremspunkt, Hebeldiagramm. Kupplungen und Bremsen sind offen oder geschlossen.

## Numbers, names and lists

decimal-sign = ,
# 1/min steht in den Normen; U/min hieße dasselbe, ist aber keine Einheit.
unit-rev-min = 1/min
unit-rev-min-thousand = × 1000/min
kinds = { " " }abtrieb abtriebswelle achse antrieb antriebswelle bremse freilauf gehäuse getriebe getriebeabtrieb hohlrad kettenrad kupplung kurbel laufrad motor nabe planetenrad planetensatz pumpe rad radsatz ritzel satz sonnenrad sonnenradwelle sonnenwelle steg tellerrad trommel turbine turbinenrad vorgelegewelle welle zahnrad zwischenrad zwischenwelle{ " " }
# Männlich und weiblich sind die genannten Wörter, alle anderen sächlich.
noun = { $case ->
    [subject] { $kind ->
        [abtrieb] der
        [antrieb] der
        [freilauf] der
        [getriebeabtrieb] der
        [motor] der
        [planetensatz] der
        [radsatz] der
        [satz] der
        [steg] der
        [abtriebswelle] die
        [achse] die
        [antriebswelle] die
        [bremse] die
        [kupplung] die
        [kurbel] die
        [nabe] die
        [pumpe] die
        [sonnenradwelle] die
        [sonnenwelle] die
        [trommel] die
        [turbine] die
        [vorgelegewelle] die
        [welle] die
        [zwischenwelle] die
       *[other] das
    }
    [object] { $kind ->
        [abtrieb] den
        [antrieb] den
        [freilauf] den
        [getriebeabtrieb] den
        [motor] den
        [planetensatz] den
        [radsatz] den
        [satz] den
        [steg] den
        [abtriebswelle] die
        [achse] die
        [antriebswelle] die
        [bremse] die
        [kupplung] die
        [kurbel] die
        [nabe] die
        [pumpe] die
        [sonnenradwelle] die
        [sonnenwelle] die
        [trommel] die
        [turbine] die
        [vorgelegewelle] die
        [welle] die
        [zwischenwelle] die
       *[other] das
    }
   *[dative] { $kind ->
        [abtriebswelle] der
        [achse] der
        [antriebswelle] der
        [bremse] der
        [kupplung] der
        [kurbel] der
        [nabe] der
        [pumpe] der
        [sonnenradwelle] der
        [sonnenwelle] der
        [trommel] der
        [turbine] der
        [vorgelegewelle] der
        [welle] der
        [zwischenwelle] der
       *[other] dem
    }
} { $name }
articles = { " " }der die das den dem hier alles{ " " }
housing = Gehäuse
and-within = { " und " }
list = { $most }, { $last }
list-clear = { $most }; { $last }
list-and = { $most } und { $last }
list-and-clear = { $most }; und { $last }
list-or = { $most } oder { $last }
list-or-clear = { $most }; oder { $last }

## Gears and what is made of them

role-sun = Sonnenrad
role-small-sun = kleines Sonnenrad
role-large-sun = großes Sonnenrad
role-first-sun = erstes Sonnenrad
role-second-sun = zweites Sonnenrad
role-ring = Hohlrad
role-carrier = Steg
role-first-gear = erstes Rad
role-second-gear = zweites Rad
role-frame = Gehäuse
pinion = Planetenrad
pinion-inner = inneres Planetenrad
pinion-outer = äußeres Planetenrad
pinion-short = kurzes Planetenrad
pinion-long = langes Planetenrad
pinion-stepped = Stufenplanet
pinion-on-sun = Stufe am Sonnenrad
pinion-on-ring = Stufe am Hohlrad
pinion-on-first-sun = erste Stufe
pinion-on-second-sun = zweite Stufe
kind-planetary = einfacher Planetensatz
kind-double-pinion = Planetensatz mit Doppelplaneten
kind-stepped = Planetensatz mit Stufenplaneten
kind-stepped-suns = Planetensatz mit zwei Sonnenrädern und Stufenplaneten
kind-ravigneaux = Ravigneaux-Satz mit kurzen und langen Planetenrädern
kind-external-pair = Stirnradpaar mit Außenverzahnung
kind-internal-pair = Stirnradpaar mit Innenverzahnung
mesh-sun-inner = Sonnenrad und inneres Planetenrad
mesh-inner-outer = inneres und äußeres Planetenrad
mesh-outer-ring = äußeres Planetenrad und Hohlrad
mesh-pair = erstes und zweites Rad
mesh-sun-pinion = Sonnenrad und Planetenrad
mesh-pinion-ring = Planetenrad und Hohlrad
mesh-small-short = kleines Sonnenrad und kurzes Planetenrad
mesh-short-long = kurzes und langes Planetenrad
mesh-large-long = großes Sonnenrad und langes Planetenrad
mesh-long-ring = langes Planetenrad und Hohlrad
mesh-sun-step = Sonnenrad und seine Stufe
mesh-step-ring = Hohlrad und seine Stufe
mesh-first-step = erstes Sonnenrad und erste Stufe
mesh-second-step = zweites Sonnenrad und zweite Stufe

## What teeth do not satisfy

tooth-coaxial = { $sun } { $sun-teeth } + 2 × { $pinion } { $pinion-teeth } = { $wanted }, aber Hohlrad { $ring }: Für eine gemeinsame Achse ist Profilverschiebung nötig
tooth-spacing = { $sum } = { $teeth } ist kein Vielfaches von { $pinions }: { $pinions } Planetenräder lassen sich nicht gleichmäßig verteilt einbauen
tooth-stepped-spacing = Sonnenrad { $sun } × Stufe am Hohlrad { $q } + Hohlrad { $ring } × Stufe am Sonnenrad { $p } = { $total } ist kein Vielfaches von { $step } ({ $pinions } Planetenräder × { $common }, der größte gemeinsame Teiler ihrer Stufen): Gleich verzahnte Stufenplaneten lassen sich nicht gleichmäßig verteilt einbauen
tooth-suns-spacing = Erstes Sonnenrad { $first } × zweite Stufe { $q } = { $left } und zweites Sonnenrad { $second } × erste Stufe { $p } = { $right } unterscheiden sich nicht um ein Vielfaches von { $step } ({ $pinions } Planetenräder × { $common }, der größte gemeinsame Teiler ihrer Stufen): Gleich verzahnte Stufenplaneten lassen sich nicht gleichmäßig verteilt einbauen
tooth-suns-coaxial = Erstes Sonnenrad { $first } + erste Stufe { $p } = { $left }, aber zweites Sonnenrad { $second } + zweite Stufe { $q } = { $right }: Bei gleichem Modul beider Stufen ist für eine gemeinsame Achse Profilverschiebung nötig
tooth-stepped-coaxial = Sonnenrad { $sun } + Stufe am Sonnenrad { $p } = { $inside }, aber Hohlrad { $ring } − Stufe am Hohlrad { $q } = { $outside }: Bei gleichem Modul beider Stufen ist für eine gemeinsame Achse Profilverschiebung nötig
tooth-neighbours = { $pinions } Planetenräder mit { $teeth } Zähnen haben { $distance } Module Abstand und brauchen mehr als { $needed }: Nachbarn berühren sich
tooth-long-pinion = Das große Sonnenrad hat { $large } Zähne und braucht mehr als { $needed } (kleines Sonnenrad { $small } + 4): Die langen Planetenräder berühren das kleine Sonnenrad
tooth-fewest = { $gear }: { $teeth } Zähne, weniger als die üblichen { $least }
tooth-inside = Das erste Rad mit { $first } Zähnen passt nicht in das innenverzahnte mit { $second }
tooth-pins = Die Achsabstände { $first }, { $second } und { $between } Module ergeben kein Dreieck: { $pinions ->
    [inner] Inneres und äußeres
   *[short] Kurzes und langes
} Planetenrad können nicht kämmen
tooth-pairs = { $pinions ->
    [inner] Innere Planetenräder
    [outer] Äußere Planetenräder
    [short] Kurze Planetenräder
    [long] Lange Planetenräder
    [outer-inner] Ein äußeres und das nächste innere Planetenrad
   *[long-short] Ein langes und das nächste kurze Planetenrad
} haben { $distance } Module Abstand und brauchen mehr als { $needed }: Sie berühren sich

## The state

state-driving = Kraftschluss
state-over-applied = Überbestimmt
state-neutral = Neutral
state-branched = Verzweigt
state-output-held = Abtrieb fest
state-tied-up = Verspannt

answer-drives = { $way ->
    [opposite] rückwärts
   *[same] vorwärts
}, { $pace ->
    [faster] Abtrieb schneller als Antrieb
    [slower] Abtrieb langsamer als Antrieb
   *[alike] { $way ->
        [opposite] Abtrieb so schnell wie Antrieb
       *[same] direkter Gang
    }
}
answer-neutral = der Abtrieb ist frei
answer-branched = mehrere Drehzahlen bestimmen
answer-output-held = der Abtrieb steht still
answer-tied-up = der Antrieb kann nicht drehen

## What is applied

none-applied = Alle Kupplungen und Bremsen sind offen.
applied = { $all }.
does-hold = { $element } hält { $first } fest
does-lock = { $element } sperrt selbsttätig { $first } gegen { $second }
does-drive = { $element } verbindet den Antrieb mit { $first }
does-join = { $element } verbindet { $first } mit { $second }

## Why it drives so

joined = Antrieb und Abtrieb sind damit direkt verbunden.
as-one = { $elements } { $count ->
    [one] lässt
   *[other] lassen
} { $pair } gleich schnell drehen, und { $what }.
as-one-alone = { $what }.
pair-alone = { $first } und { $second }
pair-same-set = { $first } und { $second } von { $set }
pair-apart = { $first } von { $set } und { $second } von { $other-set }
all-as-one = alles läuft als Block um
sets-as-one = { $sets } { $count ->
    [one] läuft
   *[other] laufen
} als Block um
in-set = { $label }: { $begun }
because = { $reaction }; dadurch { $motion }.
by-itself = hier { $motion }.
reaction-fixed = { $role ->
    [role-carrier] der feste Steg
    [role-small-sun] das feste kleine Sonnenrad
    [role-large-sun] das feste große Sonnenrad
    [role-first-sun] das feste erste Sonnenrad
    [role-second-sun] das feste zweite Sonnenrad
    [role-first-gear] das feste erste Rad
    [role-second-gear] das feste zweite Rad
   *[other] das feste { $member }
} nimmt das Reaktionsmoment auf
reaction-elements = { $elements } { $count ->
    [one] stützt
   *[other] stützen
} { $member } gegen das Reaktionsmoment ab
reaction-rest = { $member } steht still und nimmt das Reaktionsmoment auf
turns-same = treibt { $driving } { $driven } gleichsinnig an, { $pace ->
    [slower] mit Übersetzung ins Langsame
    [faster] mit Übersetzung ins Schnelle
   *[alike] mit gleicher Drehzahl
}
turns-opposite = treibt { $driving } { $driven } gegensinnig an (Drehrichtungsumkehr), { $pace ->
    [slower] mit Übersetzung ins Langsame
    [faster] mit Übersetzung ins Schnelle
   *[alike] mit gleicher Drehzahl
}
pair-turns = treibt { $driving } { $driven } { $way ->
    [opposite] gegensinnig
   *[same] gleichsinnig
} an, { $pace ->
    [slower] mit Übersetzung ins Langsame
    [faster] mit Übersetzung ins Schnelle
   *[alike] mit gleicher Drehzahl
}
member = { $case ->
    [object] { $role ->
        [role-carrier] den Steg
        [role-small-sun] das kleine Sonnenrad
        [role-large-sun] das große Sonnenrad
        [role-first-sun] das erste Sonnenrad
        [role-second-sun] das zweite Sonnenrad
        [role-first-gear] das erste Rad
        [role-second-gear] das zweite Rad
       *[other] das { $member }
    }
   *[subject] { $role ->
        [role-carrier] der Steg
        [role-small-sun] das kleine Sonnenrad
        [role-large-sun] das große Sonnenrad
        [role-first-sun] das erste Sonnenrad
        [role-second-sun] das zweite Sonnenrad
        [role-first-gear] das erste Rad
        [role-second-gear] das zweite Rad
       *[other] das { $member }
    }
}
adds = treiben { $driving } gemeinsam { $driven } an, { $place ->
    [between] mit einer Drehzahl zwischen ihren eigenen
    [overruns] schneller, als sie selbst drehen
    [slower] langsamer, als sie selbst drehen
    [beyond] schneller als { $past } und in dessen Drehrichtung
   *[against] in Gegenrichtung
}
divides = { $count ->
    [one] treibt
   *[other] treiben
} { $driving } { $driven } an
strut = { $set } überträgt Drehmoment, aber keine Leistung.
delivers = { $output } dreht { $pace ->
    [faster] schneller als
    [slower] langsamer als
   *[alike] so schnell wie
} der Antrieb und in { $way ->
    [opposite] entgegengesetzter
   *[same] gleicher
} Richtung.

## What could be released

idle = Mehr geschlossen als nötig: { $count ->
    [one] { $elements } könnte geöffnet werden, ohne dass sich etwas ändert.
   *[other] Von diesen Elementen könnte jedes für sich geöffnet werden, ohne dass sich etwas ändert: { $elements }.
}
only-for = { $element } wird nur { $what ->
    [braking] für die Motorbremswirkung
   *[coasting] im Schubbetrieb
} gebraucht: Im Zugbetrieb { $count ->
    [0] änderte sich ohne dieses Element nichts
    [one] würde ersatzweise { $instead } sperren
   *[other] würden ersatzweise { $instead } sperren
}.
keeps-locked = Ohne { $element } { $count ->
    [one] würde
   *[other] würden
} { $lets-go } nicht mehr sperren.
side-by-side = { $elements } sperren parallel: Aus dem Gleichgewicht folgt nicht, welches Element wie viel trägt.

## Why it does not drive

neutral = Neutral, denn { $reasons }.
# Where there are further sources or outputs
branched = Der Antrieb allein bestimmt weder die Drehzahl des Abtriebs noch die aller anderen Glieder: Dazu braucht es so viele Drehzahlen von An- und Abtrieben, wie es Freiheitsgrade gibt.
input-alone = der Antrieb ist mit nichts verbunden
input-geared = was der Antrieb dreht, ist mit nichts anderem verbunden
output-alone = der Abtrieb ist mit nichts verbunden
for-open = { $what }, weil { $open } offen { $count ->
    [one] ist
   *[other] sind
}
no-reaction = nichts nimmt das Reaktionsmoment auf, der Abtrieb ist also frei
would-drive = { $elements } würde den Kraftschluss herstellen.
one-would-drive = Ein weiteres, richtig gewähltes Element würde den Kraftschluss herstellen.
several-would-drive = Zum Kraftschluss fehlen noch { $count } richtig gewählte Kupplungen oder Bremsen.
no-element = Es gibt keine Kupplung und keine Bremse, die den Kraftschluss herstellen könnte.
none-would-drive = Keine der übrigen Kupplungen und Bremsen kann den Kraftschluss herstellen.
held-with = { $elements } mit { $sets }
held = { $holders } { $count ->
    [one] hält
   *[other] halten
} den Abtrieb fest, wie auch immer der Antrieb dreht.
tied-by-sets = Allein durch { $sets } verspannt: Der Antrieb kann nicht drehen.
tied-by = Verspannt, denn { $what }.
holds-alone = { $elements } hält allein den Antrieb fest
fight = { $elements } arbeiten gegeneinander
so-tied = { $what }, sodass der Antrieb nicht drehen kann
through = { $what }, und zwar über { $sets }
would-turn = Ohne { $element } würde { $first } { $way ->
    [opposite] rückwärts
   *[same] vorwärts
} drehen, { $pace ->
    [alike] so schnell wie der Antrieb
   *[other] mit dem { $speed }-Fachen der Antriebsdrehzahl
}.
would-slip = Ohne { $element } würden { $first } und { $second } verschieden schnell drehen.
fights-all = Es gibt mehr als eine Verspannung: mindestens zwei Elemente öffnen.
fights-some = Es gibt mehr als eine Verspannung: { $freeing } zu öffnen löst alle, { $others } zu öffnen nicht.
fights-one = Ein beliebiges dieser Elemente zu öffnen löst diese Verspannung.

## A walk through the power flow

walk-input = Immer mit dem Antrieb verbunden: { $members }.
# Of a train with several sources or outputs.
walk-alone = Drehmoment führt hier von allen Abtrieben nur { $output }, von allen Antrieben nur der Antrieb selbst: Die übrigen laufen leer mit oder stehen still.
walk-still = { $set } steht als Ganzes still und überträgt Drehmoment, aber keine Leistung.
walk-decided = { $set }: { $count ->
    [0] Die Drehzahlen aller Glieder sind schon bekannt.
    [one] { $before ->
        [none] Die anderen Sätze legen fest, wie schnell sich dieses Glied dreht: { $decided }.
        [one] Bekannt ist, wie schnell { $known } dreht; damit kann { $decided } nur noch mit einer Drehzahl drehen.
       *[some] Bekannt ist, wie schnell { $known } drehen; damit kann { $decided } nur noch mit einer Drehzahl drehen.
    }
   *[other] { $before ->
        [none] Alle Glieder können nur gemeinsam drehen: { $decided }.
        [one] Bekannt ist, wie schnell { $known } dreht; damit können { $decided } nur noch mit je einer Drehzahl drehen.
       *[some] Bekannt ist, wie schnell { $known } drehen; damit können { $decided } nur noch mit je einer Drehzahl drehen.
    }
}
walk-together = { $sets } legen sich gegenseitig fest: { $count ->
    [2] Keiner lässt sich vor dem anderen bestimmen.
   *[other] Keiner davon lässt sich vor den anderen bestimmen.
}
walk-undetermined = Hier ist mehr geschlossen als nötig; das Gleichgewicht legt nicht fest, welches Drehmoment jedes Glied trägt in: { $set }.
walk-reaction = { $member } nimmt das Reaktionsmoment auf und dreht dabei { $alike ->
    [yes] so schnell wie der Antrieb
   *[no] mit dem { $speed }-Fachen der Antriebsdrehzahl
}: wie ein festgehaltenes Glied, nur mit anderer Drehzahl.
walk-share = { $member } { $percent } %
walk-shares = { $flow ->
    [enters] Leistung fließt auf mehreren Wegen hinein
   *[leaves] Leistung fließt auf mehreren Wegen heraus
} ({ $set }): { $shares }.
walk-ratio = Übersetzung der Stufe { $ratio }: vom { $from }-Fachen auf das { $to }-Fache der Antriebsdrehzahl; { $torque ->
    [same] das Drehmoment bleibt gleich groß
   *[other] das Drehmoment wird { $times }-mal so groß
}.
walk-member-of = { $member } von { $set }
walk-goes-round = { $members } { $count ->
    [one] führt
   *[other] führen
} das { $times }-Fache der Antriebsleistung: Ein Teil davon ist Blindleistung und läuft { $rolls ->
    [no] in dem um, was sich als Block dreht; dort wälzt kein Zahnrad ab
   *[yes] im Getriebe um
}.
walk-idle = { $sets } { $count ->
    [one] überträgt
   *[other] übertragen
} hier kein Drehmoment und { $count ->
    [one] ist
   *[other] sind
} am Leistungsfluss nicht beteiligt.
walk-output = { $output } dreht { $way ->
    [backward] rückwärts
   *[forward] vorwärts
} { $torque ->
    [same] so schnell wie der Antrieb, mit gleich großem Drehmoment
   *[other] mit dem { $speed }-Fachen der Antriebsdrehzahl, mit dem { $times }-Fachen des Antriebsmoments
}: Übersetzung { $ratio }.
walk-product = Die ganze Leistung fließt durch eine Stufe nach der anderen, also multiplizieren sich die Übersetzungen: { $product } = { $ratio }.
walk-turns-round = Die Drehrichtung kehrt sich in { $sets } um.
# Willis' equation in words: $sum is of messages walk-tie-share.
walk-tie = { $set } verknüpft seine Drehzahlen: Drehzahl { $member } = { $sum }.
walk-tie-still = { $member } steht still und fällt weg.
walk-tie-share = { $times } × Drehzahl { $member }
walk-kept = { $elements } { $count ->
    [one] ist
   *[other] sind
} auch für „{ $range }“ geschlossen und { $count ->
    [one] bleibt
   *[other] bleiben
} es hier: Dafür fehlt dann nur noch { $rest }, und es ist weniger zu schalten.
walk-part-drives = treibt
walk-part-delivers = gibt ab
walk-part-held = fest
walk-part-idle = kein Drehmoment
walk-part-unknown = Drehmoment unbestimmt
walk-part-reacts-drives = treibt, Abstützung mit anderer Drehzahl
walk-part-reacts-delivers = gibt ab, Abstützung mit anderer Drehzahl

## From one range to another

shift-released = { $elements } { $count ->
    [one] öffnet
   *[other] öffnen
}.
shift-applied = { $elements } { $count ->
    [one] schließt
   *[other] schließen
}.
shift-lets-go = { $elements } { $count ->
    [one] löst selbsttätig und läuft frei
   *[other] lösen selbsttätig und laufen frei
}.
shift-unloaded = { $elements } { $count ->
    [one] hat
   *[other] haben
} nichts mehr zu halten.
shift-locks = { $elements } { $count ->
    [one] sperrt
   *[other] sperren
} selbsttätig.
shift-kept = { $elements } { $count ->
    [one] bleibt
   *[other] bleiben
} geschlossen.
shift-swap = { $swap ->
    [nothing] In beiden ist dasselbe geschlossen: Es gibt nichts zu schalten.
    [releases] { $one-way ->
        [helps] Dafür muss nichts anderes schließen: Der Freilauf hält von selbst, und nichts muss zeitlich abgestimmt sein.
       *[none] Dafür schließt nichts anderes.
    }
    [applies] { $one-way ->
        [helps] Dafür muss nichts anderes öffnen: Der Freilauf löst, sobald die Last ihn verlässt, und nichts muss zeitlich abgestimmt sein.
       *[none] Dafür öffnet nichts anderes.
    }
    [single] Es ist ein einfacher Wechsel: Eines öffnet, eines schließt.
   *[several] Es ist mehr als ein einfacher Wechsel: Mehrere müssen zeitlich abgestimmt sein.
}
shift-speed = { $change ->
    [freed] { $shaft }, zuvor { $still ->
        [true] im Stillstand
       *[other] { $before }
    }
    [decided] { $shaft }, jetzt { $still ->
        [true] im Stillstand
       *[other] { $after }
    }
    [stops] { $shaft } von { $before }
    [starts] { $shaft } auf { $after }
   *[other] { $shaft } von { $before } auf { $after }
}
shift-change = { $place ->
    [first] Bei gleicher Antriebsdrehzahl
   *[next] Dabei
} { $change ->
    [turns-round] { $count ->
        [one] kehrt die Drehrichtung um
       *[other] kehren die Drehrichtung um
    }
    [stops] { $count ->
        [one] kommt zum Stillstand
       *[other] kommen zum Stillstand
    }
    [starts] { $count ->
        [one] läuft an
       *[other] laufen an
    }
    [slower] { $count ->
        [one] wird langsamer
       *[other] werden langsamer
    }
    [faster] { $count ->
        [one] wird schneller
       *[other] werden schneller
    }
    [freed] { $count ->
        [one] wird frei
       *[other] werden frei
    }
   *[decided] { $count ->
        [one] ist nicht mehr frei
       *[other] sind nicht mehr frei
    }
}: { $shafts }.
shift-input = Bei gleicher Abtriebsdrehzahl { $pace ->
    [slower] muss der Antrieb langsamer werden, auf das { $times }-Fache
    [faster] muss der Antrieb schneller werden, auf das { $times }-Fache
    [against] müsste der Antrieb andersherum drehen; für diese Schaltung muss der Abtrieb stehen
   *[alike] behält der Antrieb seine Drehzahl
}.
shift-coast = { $braking ->
    [comes] Damit kommt Motorbremswirkung hinzu: Im Schubbetrieb dreht die Last den Antrieb in dieser Übersetzung mit.
   *[goes] Damit entfällt die Motorbremswirkung: Im Schubbetrieb löst ein Freilauf.
}
shift-late = { $late ->
    [come] { $count ->
        [one] Schließt { $elements } zu spät
       *[other] Schließen { $elements } zu spät
    }, { $held ->
        [none] ist eine Weile nichts geschlossen
       *[some] ist eine Weile nur geschlossen: { $holds }
    }
   *[go] { $count ->
        [one] Öffnet { $elements } zu spät
       *[other] Öffnen { $elements } zu spät
    }, ist eine Weile { $held ->
        [one] noch
       *[some] zugleich
    } geschlossen: { $holds }
}. { $state ->
    [driving] Dann gilt { $like ->
        [before] noch die alte Übersetzung { $ratio }
        [after] schon die neue Übersetzung { $ratio }
       *[neither] zwischendurch die Übersetzung { $ratio }
    }
    [over-applied] Dann gilt { $like ->
        [before] noch die alte Übersetzung { $ratio }
        [after] schon die neue Übersetzung { $ratio }
       *[neither] zwischendurch die Übersetzung { $ratio }
    }
    [neutral] Dann ist das Getriebe neutral, und unter Last dreht der Antrieb hoch
    [branched] Dann gibt es keine feste Übersetzung, und mehrere Drehzahlen bestimmen
    [output-held] Dann ist der Abtrieb fest und wird gebremst
    [tied-up] Dann ist das Getriebe verspannt, und alles wird gebremst, bis etwas rutscht
    [input-held] Dann ist das Getriebe verspannt, und der Antrieb wird gebremst, bis etwas rutscht
   *[unsettled] Dann legt das Gleichgewicht nicht fest, welche Freiläufe sperren
}.
shift-late-alone = { $late ->
    [come] Schließt nur { $elements } zu spät, { $held ->
        [none] ist eine Weile nichts geschlossen
       *[some] ist eine Weile nur geschlossen: { $holds }
    }
   *[go] Öffnet nur { $elements } zu spät, ist eine Weile { $held ->
        [one] noch
       *[some] zugleich
    } geschlossen: { $holds }
}. { $state ->
    [driving] Dann gilt { $like ->
        [before] noch die alte Übersetzung { $ratio }
        [after] schon die neue Übersetzung { $ratio }
       *[neither] zwischendurch die Übersetzung { $ratio }
    }
    [over-applied] Dann gilt { $like ->
        [before] noch die alte Übersetzung { $ratio }
        [after] schon die neue Übersetzung { $ratio }
       *[neither] zwischendurch die Übersetzung { $ratio }
    }
    [neutral] Dann ist das Getriebe neutral, und unter Last dreht der Antrieb hoch
    [branched] Dann gibt es keine feste Übersetzung, und mehrere Drehzahlen bestimmen
    [output-held] Dann ist der Abtrieb fest und wird gebremst
    [tied-up] Dann ist das Getriebe verspannt, und alles wird gebremst, bis etwas rutscht
    [input-held] Dann ist das Getriebe verspannt, und der Antrieb wird gebremst, bis etwas rutscht
   *[unsettled] Dann legt das Gleichgewicht nicht fest, welche Freiläufe sperren
}.
shift-words = { $change ->
    [same] gleich
    [faster] schneller
    [slower] langsamer
    [turns-round] kehrt um
    [stops] hält an
    [starts] läuft an
    [freed] wird frei
    [decided] nicht mehr frei
   *[free] frei
}

## What is free

free = { $shafts } { $count ->
    [one] ist frei: Nichts bestimmt die Drehzahl
   *[other] sind frei: Nichts bestimmt ihre Drehzahlen
}.

## Where engine and load agree, or why nowhere

operating-idles = Der Motor läuft im Leerlauf: Die Leerlaufregelung gibt, was die Last verlangt.
operating-steady = Motor und Last stimmen bei einer Drehzahl überein und kehren nach einer Störung dorthin zurück.
operating-drifts = Motor und Last stimmen bei einer Drehzahl überein, entfernen sich aber nach einer Störung davon: Der Punkt ist instabil.
operating-several = Motor und Last stimmen bei mehreren Drehzahlen überein: Nach einer Störung kehren sie nur zu den stabilen zurück.
operating-several-unstable = Motor und Last stimmen bei mehreren Drehzahlen überein, von denen keine stabil ist.
operating-load-too-great = Die Last ist zu groß: Sie verlangt mehr Drehmoment, als am Abtrieb ankommt, und aus dem Stillstand kann der Abtrieb nicht anfahren.
operating-below-table = Die Last ist zu groß: Sie würde den Motor unter seine kleinste Drehzahl drücken.
operating-past-table = Die Last ist zu klein: Der Motor würde seine größte Drehzahl überschreiten. Hochschalten oder Fahrpedal zurücknehmen.
operating-coasting = Die Last treibt, und das Turbinenrad würde das Pumpenrad überholen: Was dann geschieht, steht nicht in der Wandlertabelle. Mit überbrücktem Wandler zeigt sich die Motorbremswirkung.
operating-overruns = Die Last treibt, und diese Kombination gibt das nicht an den Motor weiter: Es gibt keine Motorbremswirkung.
operating-no-drive = Einen Betriebspunkt gibt es nur bei Kraftschluss.
operating-self-locking = Das Getriebe ist selbsthemmend: Die Verluste zehren die ganze Leistung auf.
operating-ambiguous = Die Verluste lassen offen, welchen Weg die Leistung nimmt; es gibt daher keine eindeutige Antwort.
operating-indeterminate = Es ist mehr geschlossen als nötig; Verluste und damit Abtriebsmoment sind nicht bestimmt.
operating-too-many = Es wälzen zu viele Radsätze zugleich, um jeden Weg der Leistung zu prüfen; Verluste und damit Abtriebsmoment sind nicht bekannt.

## Why a train cannot be driven on the road

traction-no-drive = Kein Kraftschluss.
traction-no-range = Kein Gang treibt vorwärts, darum gibt es keine Anfahrt.
traction-no-start = Bei Vollgas findet der Motor im Stand keine Drehzahl: Der Wandler nimmt mehr auf, als er abgibt, oder zu wenig, um ihn zu halten. Darum gibt es keine Anfahrt.
traction-load-too-great = Die Straße verlangt mehr, als der erste Gang zieht: Das Fahrzeug setzt sich nicht in Bewegung.
traction-lacks-engine = Dieses Szenario sagt nicht, was den Antrieb treibt und was den Abtrieb hält.
traction-add-engine = Beim Bearbeiten des Getriebes einen Motor davor und eine Last dahinter setzen.
traction-lacks-ranges = Dieses Szenario nennt keinen Gang.
traction-add-ranges = Schließen, was ein Gang braucht, und ihn beim Bearbeiten des Getriebes hinzufügen.

## What is wrong with a file, a link or an option, and what would mend it

problem = { $place }: { $what }; { $fix }
place-file = Datei
place-line = Zeile { $line }, Spalte { $column }
place-member = { $coupling }, { $member }
place-applied = geschlossene Elemente
place-pedal = Fahrpedal
place-shift-speed = Motordrehzahl zum Schalten, min⁻¹
place-road-speed = Fahrgeschwindigkeit, m/s
place-grade = Steigung
place-mesh = Wirkungsgrad je Zahneingriff
place-drag = Schleppmoment offener Elemente
place-drawing = Zeichnung
place-sandbox = Sandkasten

value-list = eine Liste
value-object = ein Objekt

problem-unknown-field = unbekanntes Feld `{ $name }`
fix-use-only = nur { $names } verwenden
problem-missing-field = das Feld `{ $name }` fehlt
fix-add = ergänzen
problem-not-object = kein Objekt: { $found }
fix-write-object = in { "{ }" } schreiben
problem-not-list = keine Liste: { $found }
fix-write-list = in [ ] schreiben
problem-not-text = kein Text: { $found }
fix-write-quotes = in Anführungszeichen schreiben
problem-not-number = keine Zahl: { $found }
fix-write-number = eine Zahl schreiben
problem-not-whole = keine ganze Zahl: { $found }
problem-not-whole-from-0 = keine ganze Zahl ab 0: { $found }
fix-write-digits = nur Ziffern schreiben
problem-not-bool = weder true noch false: { $found }
fix-write-bool = eines von beiden schreiben
problem-row-length = keine Zeile mit { $wanted } Werten, sondern mit { $found }
fix-row-length = { $wanted } Werte in [ ] schreiben, durch Kommas getrennt
problem-unknown-word = hier kein bekanntes Wort: { $found }
fix-use-one-of = eines hiervon verwenden: { $names }
problem-unknown-kind = { $found } ist keine Art von { $what ->
    [coupling] Kopplung
    [edit] Änderung
    [task] Aufgabe
   *[element] Schaltelement
}
problem-kind-not-text = { $found } ist kein Text
problem-missing = fehlt
fix-write-allowed = eine Zahl schreiben, die dort erlaubt ist
problem-teeth = { $found } Zähne sind nicht erlaubt, ein Rad hat { $least } bis { $most }
problem-pinions = { $found } Planetenräder sind nicht erlaubt, eine Reihe hat { $least } bis { $most }

problem-twice = der Schlüssel „{ $found }“ steht hier zweimal
fix-leave-one-out = einen davon weglassen
problem-too-deep = mehr als { $found } Listen und Objekte ineinander
fix-flatter = flacher schreiben: So viele braucht kein Feld
problem-ends = die Datei endet zu früh
fix-copied-whole = prüfen, ob sie vollständig kopiert wurde
problem-not-json = kein JSON: „{ $found }“
fix-mend-json = JSON an dieser Stelle berichtigen
problem-number = die Zahl { $found } ist zu groß oder nicht so geschrieben wie in JSON
fix-digits-point = Ziffern mit höchstens einem Punkt schreiben
problem-too-many-bytes = { $found } Byte sind mehr, als eine Getriebedatei haben darf
fix-fewer-bytes = unter { $most } Byte bleiben
problem-sheet = ein Aufgabenblatt ist kein Getriebe
fix-sheet = es im Feld Übungen mit „Aufgabenblatt öffnen …“ öffnen
problem-format = { $found } ist kein Format, das diese Version liest
fix-format = "format": { $format } schreiben
problem-too-many-entries = { $found } Einträge sind mehr als die { $most } erlaubten
fix-keep-at-most = höchstens { $most } behalten

problem-outside = nicht erlaubt: { $found }
problem-not-allowed = { $found } ist dort nicht erlaubt
problem-out-of-range = { $found } liegt außerhalb des Bereichs
fix-range = { $least } bis { $most } verwenden
problem-not-below-outer = nicht kleiner als der Außenradius: { $found }
fix-less = weniger als { $most } verwenden
problem-entries = { $count ->
    [one] { $count } Eintrag
   *[other] { $count } Einträge
}
problem-points = { $count ->
    [one] { $count } Punkt
   *[other] { $count } Punkte
}
fix-have = { $least } bis { $most } vorsehen
fix-name-at-most = höchstens { $most } nennen

problem-unknown-id = { $what ->
    [shaft] keine Welle
    [coupling] kein Satz
    [range] kein Gang
   *[element] kein Schaltelement
} hat die Kennung „{ $id }“
fix-has-none = hier gibt es { $what ->
    [shaft] keine Welle
    [coupling] keinen Satz
    [range] keinen Gang
   *[element] kein Schaltelement
}
problem-input-as-well = „{ $id }“ ist auch der Antrieb
fix-another-shaft = eine andere Welle nennen
problem-one-way = „{ $id }“ ist ein Freilauf
fix-one-way = weglassen: Er sperrt von selbst
problem-housing-id = „{ $id }“ bedeutet immer das Gehäuse
fix-another-id = der Welle eine andere Kennung geben
problem-taken-id = die Kennung „{ $id }“ ist vergeben an { $first }
fix-different-id = jedem eine eigene Kennung geben
problem-id = „{ $id }“ kann keine Kennung sein
fix-id = 1 bis { $most } Buchstaben, Ziffern, - oder _ verwenden
problem-characters = „{ $text }“ hat { $characters ->
    [one] 1 Zeichen, oder es ist nicht druckbar
   *[other] { $characters } Zeichen, oder darin sind nicht druckbare
}
fix-characters = { $least } bis { $most } druckbare Zeichen verwenden
problem-steers = enthält U+{ $code }, ein unsichtbares Steuerzeichen
fix-leave-out = weglassen
problem-unseen = enthält kein sichtbares Zeichen
fix-letter = mindestens einen Buchstaben oder eine Ziffer schreiben
problem-housing = das Gehäuse dreht sich nicht
fix-shaft = eine Welle nennen
problem-member-twice = „{ $id }“ ist schon ein anderes Glied von „{ $coupling }“
fix-member-twice = jedes Glied auf eine eigene Welle setzen
problem-same-ends = beide Enden sind „{ $id }“
fix-two-shafts = zwei verschiedene Wellen nennen
problem-against-itself = „{ $id }“ kann nicht gegen sich selbst sperren
fix-against-itself = eine andere Welle oder housing nennen
problem-named-twice = „{ $id }“ ist zweimal genannt
fix-named-twice = jedes Element einmal nennen

problem-missing-part = { $what ->
    [engine] der Motor
   *[load] die Last
} fehlt, und ein Betriebspunkt braucht beides
fix-missing-part = ergänzen oder Motor, Wandler und Last weglassen
problem-other-speeds = beginnt und endet nicht bei den Drehzahlen von engine.full
fix-other-speeds = in beiden die gleiche erste und letzte Drehzahl verwenden
problem-not-below-full = liegt bei { $speed } 1/min nicht unter engine.full
fix-not-below-full = ein kleineres Drehmoment als bei Vollgas schreiben
problem-speed-ratio = { $found } ist kein Drehzahlverhältnis ab 0 und unter 1
fix-speed-ratio = weglassen, was nicht in diesem Bereich liegt
problem-no-stall = beginnt nicht am Festbremspunkt
fix-no-stall = mit Drehzahlverhältnis 0 beginnen
problem-more-power = von hier an käme mehr Leistung heraus, als hineingeht
fix-more-power = Drehmomentverhältnis mal Drehzahlverhältnis höchstens 1 wählen, auch zwischen den Punkten
problem-not-rising = { $later } folgt nicht auf { $earlier }
fix-rising = Punkte nach steigenden ersten Zahlen ordnen

problem-efficiency = { $found } kann kein Wirkungsgrad sein
fix-efficiency = mehr als 0 und höchstens 1 verwenden
problem-drag = { $found } kann kein Schleppmoment sein
fix-drag = 0 oder mehr verwenden

problem-drawing = „{ $drawing }“ ist keine Zeichnung
fix-drawing = section, lever, flow, operating oder end: und die Kennung einer Kopplung verwenden
problem-nothing-open = es ist kein Getriebe geöffnet
fix-nothing-open = zuerst eines öffnen
problem-canvas = die Zeichenfläche hat keinen 2d-Kontext

## Changing a train

edit-blank = Neues Getriebe
layout-name = Gefundene Bauform
edit-input = Antrieb
edit-output = Abtrieb
edit-set = Satz { $number }
edit-member = { $role } { $number }
edit-joined = { $first } + { $second }
edit-brake = Bremse { $id }
edit-clutch = Kupplung { $id }
edit-one-way = Freilauf { $id }
edit-range = Gang { $number }
edit-engine = Motor
edit-converter = Drehmomentwandler
edit-load = Last

problem-no-gear = der Satz hat kein Rad mit der Nummer { $found }
problem-no-member = der Satz hat kein Glied mit der Nummer { $found }
fix-number = 0 bis { $most } verwenden
problem-no-pinions = ein Räderpaar hat keine Planetenräder
fix-set-with-pinions = einen Satz mit Planetenrädern wählen
problem-no-pair = nur ein Räderpaar kann innen oder außen kämmen
fix-pair = ein Räderpaar wählen
problem-frame = das Gestell eines Räderpaars ist das Gehäuse
fix-frame = eines seiner Räder wählen
problem-no-one-way = nur ein Freilauf sperrt in einer Richtung
fix-one-way-only = einen Freilauf wählen
problem-no-friction = ein Freilauf hat keine Reibflächen
fix-no-friction = eine Bremse oder Kupplung wählen
problem-connect-itself = { $shaft } ist bereits eine Welle
problem-connect-ends = { $first } und { $second } sind Antrieb und Abtrieb und können nicht eine Welle sein
fix-connect-ends = durch eine Kupplung verbinden oder zuerst einen anderen Antrieb oder Abtrieb wählen
problem-connect-set = { $first } und { $second } sind beide Glieder von { $what }, das wäre dauerhaft gesperrt
fix-connect-set = eine Kupplung dazwischensetzen
problem-connect-element = { $what } sitzt zwischen { $first } und { $second }
problem-no-two-suns = ohne zwei Sonnenräder oder Stufen sieht der Satz gewendet gleich aus
fix-two-suns = einen Satz mit zwei Sonnenrädern oder mit Stufenplaneten wenden
problem-no-gap = { $found } ist kein Platz neben den Sätzen
fix-connect-element = zuerst entfernen: { $what }
problem-not-there = was geändert werden soll, ist nicht vorhanden
fix-not-there = zuerst Motor, Wandler oder Last hinzufügen oder einen vorhandenen Punkt nennen; der erste und der letzte bleiben
problem-hold-end = { $second } ist Antrieb oder Abtrieb und muss drehen können
fix-hold-end = eine Bremse daransetzen oder zuerst einen anderen Antrieb oder Abtrieb wählen

## The command line

cli-usage = Aufruf: chart DATEI [--apply ID,ID…] [--all] [--torque N·m] [--json] [--pedal 0…1] [--grade HÖHE/LÄNGE] [--lockup] [--mesh WIRKUNGSGRAD] [--language SPRACHE] [--help]
cli-search-usage = Aufruf: search AUFGABE.json [--shard K/N] [--out DATEI] [--threads N] [--save-every SEKUNDEN] [--estimate] [--language SPRACHE], oder search AUFGABE.json --merge DATEI,DATEI… [--out DATEI]
cli-search-shard = { $found } ist kein Teil: K/N schreiben, mit K von 1 bis N und N höchstens { $most }
cli-search-threads = { $found } ist keine Zahl von Threads: eine von 1 bis { $most } schreiben
cli-search-save = { $found } ist kein Abstand zwischen Sicherungen: Sekunden von { $least } bis { $most } schreiben
cli-search-estimate = { $all } Möglichkeiten, etwa { $boxes } Felder anzusehen: hier etwa { $time } in { $threads } Threads, weniger, wo Funde andere ausschließen; in Teilen auf mehreren Rechnern (--shard) um so viel schneller, wie es sind
cli-search-resumed = weiter bei { $percent } %, wo sie unterbrochen wurde
cli-search-full = vorzeitig beendet mit { $found } Funden, da zu viele Getriebe einander in etwas übertreffen: weniger nennen, was ein Getriebe besser macht, oder die Toleranzen verengen; von { $all } Möglichkeiten { $outside } ausgeschlossen, da keine solche Übersetzungen hat, { $beaten }, da keine das Gefundene übertreffen kann, { $tried } geprüft
duration = { $unit ->
    [seconds] { $number } s
    [minutes] { $number } min
    [hours] { $number } Stunden
    [days] { $number } Tage
   *[years] { $number } Jahre
 }
cli-search-no-task = eine Aufgabendatei nennen
cli-search-line = { $file }, Zeile { $line }: kein Fund
cli-search-lines = { $file }: mehr als { $most } Funde; so viele schreibt kein Teil
cli-search-progress = { $percent } % von { $all } Möglichkeiten, { $found } gefunden
cli-search-done = { $all } Möglichkeiten: { $outside } ausgeschlossen, da keine solche Übersetzungen hat, { $beaten }, da keine das Gefundene übertreffen kann, { $tried } geprüft; { $found } gefunden
cli-layouts-usage = Aufruf: layouts AUFGABE.json [--shard K/N] [--out DATEI] [--save-every SEKUNDEN] [--estimate] [--language SPRACHE] oder layouts --merge DATEI,DATEI… [--out DATEI]
cli-layouts-no-task = nennen Sie eine Aufgabendatei oder Dateien zum Vereinen
cli-layouts-progress = { $percent } %, { $found } gefunden
cli-layouts-done = { $frames } Arten, die Sätze zu verbinden, { $given } davon mit mehr Möglichkeiten, als erprobt wurden, { $layouts } Bauformen, deren Übersetzungen stimmen könnten: { $useless } sind nicht baubar oder haben ein überzähliges Schaltelement, für { $toothless } gibt es keine Zähne, { $unended } wurden nicht mit allen Zähnen erprobt; { $found } gefunden
cli-layouts-unreached = gleich mit welchen Zähnen innerhalb der Grenzen, keine Art, die Sätze zu verbinden, ergibt eine solche Übersetzung für: { $ranges }
cli-layouts-estimate = { $part ->
    [whole] etwa { $frames } Arten, die Sätze zu verbinden; nach einer Stichprobe hier sehr grob { $time } in einem Thread, es kann ein Mehrfaches oder ein Bruchteil davon sein; in Teilen (--shard) um so viel schneller, wie es Prozessoren sind
   *[shard] etwa { $frames } Arten, die Sätze zu verbinden; nach einer Stichprobe hier sehr grob { $time } für diesen von { $shards } Teilen und { $whole } für alle zusammen, es kann ein Mehrfaches oder ein Bruchteil davon sein
}
cli-draw-usage = Aufruf: draw DATEI AUSGABE.svg [section|lever|flow|operating|end:ID] [--apply ID,ID…] [--width CSS-PIXEL] [--dark] [--merged] [--power] [--one-module]
cli-draw-crossings = Wellen kreuzen sich { $count ->
    [one] einmal
   *[other] { $count }-mal
}
cli-misused = { $what }; { $usage }
cli-argument = { $argument } ist kein UTF-8
cli-needs-ids = --apply braucht Kennungen
cli-needs-torque = --torque braucht N·m, 0 oder mehr
cli-needs-value = { $option } braucht einen Wert
cli-needs-number = { $option } braucht eine Zahl
cli-unknown-option = unbekannte Option { $option }
cli-one-file = nur eine Datei auf einmal
cli-all-or-apply = --all und --apply schließen einander aus
cli-no-engine = { $file }: { $option } verlangt Motor und Last, hier fehlen sie
cli-and-more = { $first } (weitere Fehler: { $more })
cli-unwritten = die Ausgabe: { $error }
cli-directory = ein Verzeichnis; eine Datei angeben
cli-not-regular = keine gewöhnliche Datei; eine solche angeben
cli-too-long = { $found } Byte sind mehr, als eine solche Datei haben darf; unter { $most } Byte bleiben
cli-utf-16 = Text in UTF-16; als UTF-8 speichern
cli-utf-32 = Text in UTF-32; als UTF-8 speichern
cli-not-utf-8 = kein UTF-8; als Text in UTF-8 speichern
cli-language = keine Sprache „{ $found }“; eine hiervon verwenden: { $names }
cli-range = Gang
cli-applied = geschlossen
cli-state = Zustand
cli-dof = FG
cli-step = Sprung
cli-ratio = Übersetzung
cli-state-is = { $state ->
    [driving] Kraftschluss
    [over-applied] überbestimmt
    [neutral] neutral
    [output-held] Abtrieb fest
   *[tied-up] verspannt
}
cli-grip-is = { $grip ->
    [holds] hält
    [slips] rutscht
    [idle] lastfrei
    [undetermined] nicht bestimmt
   *[no-data] keine Daten
}
cli-spread = Spreizung { $spread }
cli-tooth-check = Zahnprüfung, { $coupling }: { $check }
cli-ratio-is = Übersetzung { $ratio }
cli-freedom = Freiheitsgrade { $freedom }
cli-formula = Übersetzung = { $formula }
cli-speeds = Drehzahl je Antriebsumdrehung
cli-on-its-pin = { $coupling }, { $pinion } auf dem Bolzen
cli-free = frei
cli-slips = Differenzdrehzahl offener Schaltelemente je Antriebsumdrehung
cli-slip-of = { $kind ->
    [brake] Drehzahl { $first-label }
   *[clutch] { $first-label } minus { $second-label }
}
cli-torques = Drehmoment je Einheit Antriebsmoment, positiv in Antriebsrichtung
cli-from-on = von { $first-label } auf { $second-label }
cli-at-output = von außen am Abtrieb
cli-on = auf { $housing }
cli-undetermined = nicht bestimmt: mehr geschlossen als nötig
cli-goes-round = Leistung läuft im Inneren um: bis zum { $most }-Fachen der Antriebsleistung
cli-efficiency = Wirkungsgrad { $percent } %
cli-capacity = übertragbares durch gefordertes Drehmoment bei { $torque } N·m Antriebsmoment (kein Festigkeitsnachweis)
cli-slips-first = { $element } rutscht zuerst, über { $torque } N·m Antriebsmoment
cli-stable = stabil
cli-unstable = instabil
cli-stall = Anfahren
cli-point = Motor { $engine }, Antrieb { $input }, Abtrieb { $output }
cli-turning = { $speed } 1/min { $torque } N·m

## Words in drawings

motion-held = fest
motion-forward = vorwärts
motion-backward = rückwärts
motion-free = frei
motion-fights = verspannt
end-input = Antrieb
end-output = Abtrieb
gear-teeth = { $teeth } Zähne
gear-teeth-steps = { $first } und { $second } Zähne
gear-on-its-pin = auf dem Bolzen
pack-locks = { $element } sperrt
pack-overruns = { $element } läuft frei
pack-idle = { $element } lastfrei
key-one-shaft = eine Welle
key-open = offen
key-closed = geschlossen
key-behind = verläuft dahinter
key-no-power = keine Leistung
lever-input = Antrieb
lever-output = Abtrieb
lever-preview = Vorschau
lever-input-speed = Antrieb { $speed } { $unit }
lever-input-turn = Antrieb: 1 Umdrehung
lever-blocked = { $line }: blockiert
flow-times-input = { $times } × Antrieb
flow-idle = lastfrei,
flow-member-idle = { $member } lastfrei,
flow-member-held = { $member } fest,
flow-no-power = keine Leistung
diagram-engine-speed = Motordrehzahl, { $unit }
diagram-full-pedal = Vollgas
diagram-engine = Motor
diagram-load = Last
diagram-pump = Pumpe
diagram-pump-stall = Pumpe, Festbremspunkt
# What stands in the drawing of shifts.
diagram-swaps-ratio = Übersetzung, gleiche Stufensprünge gleich breit
diagram-swaps-backward = rückwärts
diagram-traction-force = Radzugkraft, { $unit }
diagram-traction-speed = Fahrgeschwindigkeit, { $unit }
diagram-traction-engine = Motordrehzahl, { $unit }
diagram-traction-level = eben
diagram-traction-slope = { $slope } %
diagram-traction-top = { $speed }
diagram-traction-road = Fahrwiderstand je Steigung
diagram-traction-run = Beschleunigung aus dem Stand bei Vollgas
diagram-traction-shift = Schaltpunkt
diagram-swaps-now = jetzt geschlossen
diagram-swaps-from-here = einfacher Wechsel von hier
diagram-swaps-single = einfacher Wechsel
diagram-swaps-double = doppelter Wechsel
diagram-swaps-other = ohne Namen
diagram-swaps-beyond = weit außerhalb der Achse
diagram-swaps-chain = Kette

# Was im Bild einer Schaltung im Zeitverlauf steht.
diagram-timed-time = Zeit, s
diagram-timed-commands = Ansteuerung
diagram-timed-applied = { $element } schließt
diagram-timed-released = { $element } öffnet
diagram-timed-cut = Motormoment
diagram-timed-fill = Füllen
diagram-timed-speeds = Drehzahl, { $unit }
diagram-timed-torques = Moment der Kupplungen und Bremsen, { $unit }
diagram-timed-output = Moment am Abtrieb, { $unit }
diagram-timed-power = Verlustleistung durch Schlupf, kW
diagram-timed-before = vorher
diagram-timed-torque = Momentphase
diagram-timed-inertia = Trägheitsphase
diagram-timed-after = nachher
diagram-timed-flare = Hochdrehen
diagram-timed-bind = Verspannung
diagram-timed-capacity = übertragbares Moment
diagram-timed-kept = zum Vergleich gemerkt
diagram-timed-wrong = Hochdrehen oder Verspannung
diagram-timings-right = kaum Hochdrehen oder Verspannung
diagram-timings-release = Öffnen beginnt bei, s
diagram-timings-apply = Füllen beginnt bei, s

diagram-finds-unbeaten = keines ist in beidem besser
diagram-finds-beaten = in anderem besser
diagram-finds-chosen = auf der Bühne
diagram-finds-present = die Zähne, die das Getriebe hatte
diagram-finds-beyond = die Zähne, die das Getriebe hatte, außerhalb des Bildes

## What the half-section shows that cannot be built

caution-pass = { $one } müsste durch { $other } hindurch
caution-support = die Abstützung von { $member } ({ $set })
caution-crosses = So gezeichnet nicht baubar: { $passes }. Bei gemeinsamer Achse hat jede Anordnung eine solche Stelle.
caution-nests = Nicht so, wie man es bauen würde: { $passes }. Es gibt eine Anordnung ohne eine solche Stelle.
caution-undecided = So gezeichnet nicht baubar: { $passes }.

## What drawings note

flow-loop = Blindleistung läuft um durch { $sets }: { $member } führt { $share }.
flow-loop-share = Blindleistung läuft um durch { $sets }: { $member } führt { $share } der Antriebsleistung.
flow-key-through = durchgehende Leistung
flow-key-round = umlaufende Blindleistung
flow-undivided = Mehr geschlossen als nötig: Wie sich die Leistung aufteilt, hängt von Passung und Elastizität ab; ein Leistungsfluss lässt sich daher nicht zeichnen.
flow-none = { $state }: { $answer }, es fließt also keine Leistung hindurch.
power-scale = breiteste Linie: bis zu { $most } × Antriebsleistung
power-scale-short = bis zu { $most } × Antrieb
per-input-turn = je Antriebsumdrehung

## The page: its frame

page-scenario = Getriebe
page-pick-empty = Neues, leeres Getriebe
page-open-file = Datei öffnen…
page-own-file = { $name } (eigene Datei)
page-theme = Hell oder dunkel
page-theme-choice = { $choice ->
    [auto] Hell oder dunkel wie das System
    [light] Immer hell
   *[dark] Immer dunkel
}
page-language = Sprache
page-problem-language = dieser Browser bewahrt die Wahl nicht auf
page-fix-language = Der Seite erlauben, sie aufzubewahren, oder die Sprache des Browsers einstellen
page-cautions = Vorsicht
page-cautions-text = Levertrain zeigt ideale Bewegung und Gleichgewicht mit einfachen Verlusten, zum Lernen und für frühe Entwürfe. Es ist keine Reparaturanleitung und kein Festigkeitsnachweis: Nichts darin verbiegt sich, erwärmt sich oder verschleißt. Echte Getriebe können verletzen: Teile drehen ohne Vorwarnung, und Federn, Druck und angehobene Fahrzeuge speichern Energie. Vorrang haben die Serviceunterlagen des Herstellers, örtliche Vorschriften und Fachleute.
page-dismiss = Meldung schließen
page-problem = { $place }: { $problem }. { $fix }
page-fix = { $fix }.
page-more-problems = … und { $count } weitere.

## The page: what went wrong, and what is on screen all the same

page-heading-kept = Das hat nicht geklappt. Angezeigt bleibt, was vorher zu sehen war.
page-heading-nothing = Noch kann nichts gezeigt werden.
page-heading-other = Was der Link verlangt, kann nicht gezeigt werden; hier ist stattdessen ein anderes Getriebe.
page-heading-partly = Ein Teil des Links kann nicht gezeigt werden; an seiner Stelle steht das Übliche.
page-heading-parts = Nicht alles, was die Seite verlangt, kann gezeigt werden.
page-heading-unopened = { $name } lässt sich nicht öffnen. Angezeigt bleibt, was vorher zu sehen war.
page-heading-unkept = { $name } ist geöffnet, bis die Seite neu geladen wird.
page-heading-afresh = Das Rechenprogramm wurde mit diesem Getriebe neu gestartet.

page-place-link = Link
page-place-engine = Rechenprogramm
page-problem-engine = arbeitet nicht mehr ({ $reason })
page-fix-engine-again = Einfach weiterarbeiten; geschieht es wieder, die Seite neu laden
page-fix-engine-other = Ein anderes Getriebe wählen oder neu laden
page-problem-large = die Datei hat { $size } KiB, eine Getriebedatei höchstens { $most } KiB
page-fix-large = Eine Getriebedatei wählen
page-problem-unkept = dieser Browser bewahrt sie nicht über ein Neuladen hinweg auf
page-fix-unkept = Als Datei speichern oder danach wieder öffnen
page-problem-panel = was in das Feld gehört, wurde nicht geladen ({ $reasons })
page-fix-panel = Verbindung prüfen und die Seite neu laden
page-problem-scenario = es gibt kein Getriebe „{ $stem }“
page-fix-scenario = Eines aus der Liste wählen
page-problem-speed = { $value } ist keine Drehzahl
page-fix-speed = 0 bis { $most } 1/min verwenden
page-problem-torque = { $value } ist kein Drehmoment
page-fix-torque = 0 bis { $most } N·m verwenden
page-problem-losses = „{ $code }“ ist nicht Wirkungsgrad je Zahneingriff, Schleppmoment und Lastrichtung
page-fix-losses = Wirkungsgrad über 0 bis 100, Schleppmoment von 0 bis { $most } und 0 oder 1 für Schubbetrieb angeben
page-problem-road = „{ $code }“ ist nicht Fahrpedal, Steigung und Überbrückung
page-fix-road = Fahrpedal von 0 bis 100, Steigung von { $least } bis { $most } und 0 oder 1 für die Überbrückung angeben
page-problem-unit = „{ $code }“ ist keine Einheit
page-fix-unit = Eine hiervon verwenden: { $known }
page-problem-view = es gibt keine Ansicht „{ $name }“
page-problem-part = das Element hat keinen Teil „{ $name }“
page-problem-value = „{ $name }“ gibt es hier nicht
page-problem-range = das Getriebe hat keinen Gang „{ $id }“
page-fix-no-range = Die Schaltelemente mit „applied“ nennen: Dieses Getriebe hat keine benannten Gänge
page-problem-unread = { $address } war nicht zu lesen ({ $reason })
page-fix-unread = Die Adresse prüfen; sie gilt von der Seite aus
page-fix-unread-apart = Die Adresse prüfen; ein anderer Host als der der Seite muss die Datei mit Access-Control-Allow-Origin für { $host } senden
page-fix-known = Eines hiervon verwenden oder weglassen: { $known }
page-problem-link-nowhere = er schließt Schaltelemente, ohne ein Getriebe zu nennen
page-problem-link-key = „{ $key }“ kann ein Link nicht angeben
page-problem-link-broken = die Angabe zu „{ $key }“ ist beschädigt
page-problem-link-speed = „{ $text }“ ist keine Antriebsdrehzahl von 0 bis { $most } 1/min
page-problem-link-torque = „{ $text }“ ist kein Antriebsmoment von 0 bis { $most } N·m
page-problem-link-train = das Getriebe darin ist beschädigt oder zu lang
page-fix-link = Prüfen, ob der ganze Link kopiert wurde, oder unten wählen

## The page: answer, drawings and controls

page-answer = Ergebnis
page-applied = { $elements } geschlossen
page-applied-none = Nichts geschlossen
page-applied-range = { $range } · { $applied }
page-preview = Vorschau
page-preview-range = Vorschau: { $range }
page-preview-gives = Vorschau: { $element } { $does ->
    [releasing] öffnen
   *[closing] schließen
} ergibt
page-answer-more = { $state }, { $pace }; exakt { $exact }
page-answer-chosen = { $count ->
    [one] { $count } Drehzahl ist wählbar
   *[other] { $count } Drehzahlen sind wählbar
}
page-answer-turn = Von Hand drehen
page-answer-degrees = { $count } Freiheitsgrade, nötig ist einer
page-spoken = { $applied }. { $state }: { $answer }.
page-spoken-ratio = { $applied }. Übersetzung { $ratio } zu 1, { $state }: { $answer }.
page-hint = Ein Lamellenpaket durch Ziehen oder Drücken schließen und öffnen. Auf ein Glied zeigen, um es überall zu verfolgen. P und Q sind Planetenräder; die Zahl neben einem Rad ist seine Zähnezahl.
page-hint-locked = Kupplungen und Bremsen bleiben auf dieser Seite, wie sie sind. Auf ein Glied zeigen, um es überall zu verfolgen. P und Q sind Planetenräder; die Zahl neben einem Rad ist seine Zähnezahl.
page-drawings = Zeichnungen
page-drawings-scroll = Zeichnungen; seitlich verschiebbar
page-sign-held = { $shaft } steht still: schwarz, Räder schraffiert
page-sign-forward = { $shaft } dreht wie der Antrieb: blau, Pfeile nach oben
page-sign-backward = { $shaft } dreht gegen den Antrieb: orange, Pfeile nach unten
page-sign-free = { $shaft } ist frei, nichts bestimmt die Drehzahl: grau und gestrichelt
page-sign-fights = { $shaft } ist verspannt: rot, mit Stern
page-sign-open = { $element } ist offen: Die Lamellen stehen auseinander
page-sign-applied = { $element } ist geschlossen: Die Lamellen sind zusammengedrückt
page-drawing-section = Halbschnitt: { $train }
page-out-of-scale = Nicht durchgehend in einem Maßstab, die Zeichnung würde sonst zu hoch: Räder, durch die ihre inneren Wellen nicht hindurchpassen, sind größer gezeichnet als die übrigen.
page-drawing-section-caution = Halbschnitt: { $train }. { $caution }
page-drawing-lever = Hebeldiagramm: { $train }
page-drawing-lever-said = Hebeldiagramm: { $train }; die Tabelle der Glieder sagt dasselbe
page-drawing-flow = Leistungsfluss: { $train }; die Tabelle der Drehmomente und Leistungen sagt dasselbe
page-drawing-operating = Drehmoment des Motors und das von ihm geforderte über der Motordrehzahl; die Tabelle sagt dasselbe
page-drawing-end = { $set }, in Achsrichtung gesehen
page-stage-size = Größe der Zeichnungen
page-stage-larger = Größer
page-stage-smaller = Kleiner
page-whole = Ganzes Getriebe
page-elements = Kupplungen und Bremsen
page-switch = { $element }, { $kind ->
    [brake] hält { $first } fest
   *[clutch] verbindet { $first } und { $second }
}; { $state ->
    [applied] geschlossen
   *[open] offen
}
page-ranges = Gänge
page-release-all = Alle öffnen
page-shown = Was der Halbschnitt zeigt
page-shown-speed = Drehzahl
page-shown-power = Leistung
page-turn = Drehen
page-stop = Anhalten
page-turning = Drehbewegung
page-rate-normal = Normal
page-rate-slow = Langsam
page-rate-very-slow = Sehr langsam
page-stillness = Das System verlangt Stillstand.
page-controls = Antrieb und Drehbewegung
page-input-speed = Antriebsdrehzahl
page-input-speed-in = Antriebsdrehzahl in { $unit }
page-input-torque = Antriebsmoment
page-unit-of = Einheit: { $quantity ->
    [speed] Drehzahl
    [torque] Drehmoment
   *[power] Leistung
}
page-up-to = 0 bis { $most }
page-not-number = Keine Zahl: { $range }
page-allowed = Erlaubt: { $range }
page-joined = Sätze mit zwei gemeinsamen Wellen in einem Hebel zusammenfassen
page-joined-none = (hier haben keine zwei Sätze zwei gemeinsame Wellen)
page-one-scale = Alle Räder in einem Maßstab zeichnen

## The page: torque and power in words

page-member = { $member }, { $set }
page-the-member = { $member }, { $set }
page-some-member = ein Glied
page-does-drive = treibt den Satz
page-does-driven = vom Satz getrieben
page-does-hold = stützt ab
page-does-nothing = überträgt kein Drehmoment
page-undetermined = nicht bestimmt
page-free = frei
page-element-open = offen
page-element-overruns = läuft frei
page-element-idle = lastfrei
page-element-keeps = hindert { $first } daran, { $way ->
    [forward] vorwärts
   *[backward] rückwärts
} zu drehen
page-element-at-rest = hält { $first } und { $second } gemeinsam im Stillstand
page-element-passes = nimmt Leistung über { $from } auf und gibt sie über { $to } ab
page-end-takes = nimmt { $torque }, { $power } auf
page-end-delivers = gibt { $torque }, { $power } ab
page-member-does = { $member }: { $does }
page-member-does-at = { $member }: { $does }, { $torque }, { $power }
page-share = { $member } { $share }
page-shares = getrieben von { $shares }
page-recirculation = { $name }: { $times }-fache Antriebsleistung; ein Teil davon läuft im Getriebe um (Blindleistung).
page-indeterminate = Mehr geschlossen als nötig: Aus dem Gleichgewicht folgt nicht, welches Element wie viel trägt.
page-exactly = { $share } × { $quantity ->
    [speed] Antriebsdrehzahl
    [torque] Antriebsmoment
   *[power] Antriebsleistung
}
page-part-of-set = { $set }, { $part }

## The page: panels

page-panel-chart = Schaltschema
page-panel-members = Glieder
page-panel-effort = Drehmoment und Leistung
page-panel-losses = Verluste
page-panel-teeth = Zahnprüfung
page-panel-combinations = Alle Kombinationen
page-panel-compare = Vergleichen
page-panel-worksheet = Arbeitsblatt
page-panel-keys = Tasten
page-keys-key = Taste
page-keys-does = Wirkung
page-keys-anywhere = Überall
page-keys-list = zeigt diese Liste
page-keys-back = schließt, was offen ist; bricht ein Ziehen ab
page-keys-ranges = Auf den Gängen
page-keys-next-range = den nächsten oder vorigen einlegen
page-keys-digit = den ersten bis neunten Gang einlegen
page-keys-release = öffnet alle
page-keys-switches = Auf den Kupplungen und Bremsen der Zeichnung
page-keys-next = zum nächsten oder vorigen Element
page-keys-toggle = schließt oder öffnet es
page-keys-drawings = Auf den Zeichnungen
page-keys-size = größer oder kleiner zeigen
page-keys-pan = verschieben, was nicht hineinpasst
page-keys-parts = Beim Ändern des Getriebes
page-keys-next-part = zum nächsten oder vorigen Teil
page-keys-open = zeigt, was sich damit tun lässt
page-keys-undo = nimmt die letzte Änderung zurück
page-keys-redo = führt sie wieder aus
page-keys-by-hand = Auf einem Glied, das von Hand gedreht wird (Antriebe und Abtriebe)
page-keys-turn = um 10/min schneller oder langsamer
page-keys-turn-far = dasselbe um 100/min
page-keys-turn-rest = zum Stillstand
page-keys-timed = Auf einem Griff der Schaltung im Zeitverlauf
page-keys-ramp = um eine Hundertstelsekunde früher oder später
page-keys-ramp-far = dasselbe um eine Zehntelsekunde
page-keys-ramp-home = an den Anfang
page-keys-timed-undo = nimmt die letzte Änderung der Zeiten zurück
page-keys-class-begin = ganzer Bildschirm, Schrift für die letzte Reihe
page-keys-class = Im Unterricht
page-keys-class-next = der nächste Gang oder Schritt, oder der vorige
page-keys-class-point = auf das nächste oder vorige Glied zeigen
page-keys-class-keep = dieses Glied hervorgehoben lassen, oder es freigeben
page-keys-class-hide = verbirgt oder zeigt Übersetzung, Worte, Zahlen; zeigt alles
page-keys-class-steps = Schritte des Rundgangs statt der Gänge, oder wieder Gänge
page-key-escape = Esc
page-key-space = Leertaste
page-key-enter = Eingabe
page-key-page-down = Bild ab
page-key-page-up = Bild auf
page-key-control = Strg
page-key-z = Z
page-key-y = Y
page-panel-share = Bilder, Link und Einbetten
page-panel-working = Rechenweg
page-panel-flow = Leistungsfluss
page-panel-operating = Motor und Straße
page-panel-capacity = Übertragbares Moment
page-panel-end-view = Stirnansicht
page-panel-slips = Differenzdrehzahlen, offene Elemente
page-panel-bearings = Lager und Zahneingriffe

page-per-input-turn = Je Umdr. Antrieb
page-ratio = Übersetzung
page-shaft = Welle
page-input = Antrieb
page-output = Abtrieb

## The page: range chart, members, every combination

page-chart-range = Gang
page-chart-was = vorher { $ratio }
# Divided at a soft hyphen, which stands in the braces: the columns are narrow.
page-chart-ratio = Über{ "­" }setzung
page-chart-step = Stufen{ "­" }sprung
page-chart-step-note = Stufensprung: diese Übersetzung durch die des nächsten Gangs.
page-chart-none = Für dieses Getriebe sind keine Gänge benannt.
page-chart-efficiency = Wirkungsgrad in Prozent
page-chart-efficiency-heard = Wirkungsgrad,
page-chart-coasting = Schub
page-chart-marks = { $clutch } Kupplung { $brake } Bremse, geschlossen
page-chart-marks-one-way = { $clutch } Kupplung { $brake } Bremse, geschlossen { $one-way } Freilauf, gesperrt
page-chart-braking = Motorbremswirkung: { $ranges }.
page-chart-braking-none = Kein Gang hat Motorbremswirkung.
page-chart-spread = Spreizung { $spread }, größte durch kleinste Vorwärtsübersetzung.
page-members-motion = Bewegung
page-members-moment = Die Drehzahlen, die die Zeichnungen jetzt zeigen.
page-members-input = Antrieb
page-members-output = Abtrieb
page-combinations-applied = Geschlossen
page-combinations-state = Zustand
page-combinations-show = Zeigen
page-combinations-all = alle { $count }
page-combinations-of = { $state } ({ $count })
page-combinations-any = alle
page-combinations-none = keine
page-combinations-order = Reihenfolge
page-combinations-by-counting = wie gezählt
page-combinations-by-ratio = Übersetzung
page-combinations-by-state = Zustand
page-combinations-by-applied = Zahl der geschlossenen
page-combinations-by-changes = wenigste Änderungen
page-combinations-elements = Schaltelemente in den gezeigten Kombinationen
page-combinations-asked-none = Schaltelemente: beliebig
page-combinations-asked = Schaltelemente: { $wishes }
page-combinations-asked-applied = { $element } geschlossen
page-combinations-asked-open = { $element } offen
page-combinations-either = beliebig
page-combinations-is-applied = geschlossen
page-combinations-is-open = offen
page-combinations-count = { $count ->
    [one] { $count } Kombination
   *[other] { $count } Kombinationen
}
page-combinations-progress = Geprüfte Kombinationen
page-combinations-walking = { $known } von { $all } geprüft, { $listed } aufgeführt
page-combinations-stopped = Angehalten bei { $known } von { $all }: Die Liste ist nicht vollständig.
page-combinations-stop = Anhalten
page-combinations-go-on = Fortsetzen
page-combinations-apply = + { $element } schließen
page-combinations-release = − { $element } öffnen
page-combinations-take = { $elements } als Gang hinzufügen

## The page: torque and power, losses

page-effort-member = Satz und Glied
page-effort-train = Ganzes Getriebe
page-effort-drives = treibt das Getriebe
page-effort-delivers = gibt ab
page-effort-reaction = nimmt das Reaktionsmoment auf
page-effort-out = { $torque } ab
page-effort-none = { $state }: Drehmomente gibt es nur bei Kraftschluss.
page-effort-signs = Ohne Verluste. Das Drehmoment eines Glieds ist das seiner Welle auf den Satz, vorwärts positiv; das eines Schaltelements ist der Betrag dessen, was es hält oder weitergibt. Im ganzen Getriebe geht Drehmoment am Antrieb hinein und wird am Abtrieb und an das Gehäuse abgegeben: Das Antriebsmoment ist die Summe dieser beiden.
page-effort-driving = Gezeigt für den Zugbetrieb; der Schubbetrieb wird nur für die Verluste gewählt.
page-effort-power-in = Zugeführte Leistung
page-losses-loss = Verlust
page-losses-all = Alle
page-losses-drag = Schleppmoment
page-losses-efficiency = { $way ->
    [coasting] Wirkungsgrad { $efficiency } im Schubbetrieb; { $torque } am Abtrieb.
   *[driving] Wirkungsgrad { $efficiency }; { $torque } am Abtrieb.
}
page-losses-outcome = { $outcome ->
    [self-locking] Selbsthemmend: Es kommt keine Leistung hindurch, die Verluste zehren sie ganz auf.
    [ambiguous] Mehrdeutig: Die Leistung könnte auf mehr als einem Weg umlaufen, jedes Mal mit anderem Wirkungsgrad, und die Räder entscheiden das nicht.
    [indeterminate] Mehr geschlossen als nötig: Aus dem Gleichgewicht folgt nicht, welches Element wie viel trägt.
    [too-many] Es wälzen zu viele Radsätze zugleich, um jeden Weg der Leistung zu prüfen.
   *[no-drive] Einen Wirkungsgrad gibt es nur bei Kraftschluss.
}
page-losses-no-torque = Ohne Antriebsmoment fehlt das Maß für das Schleppmoment.
page-losses-mesh = Wirkungsgrad je Zahneingriff
page-losses-mesh-note = 99 % für jeden Zahneingriff sind üblich; Herstellerangaben weichen ab.
page-losses-open = Schleppmoment offener Elemente
page-losses-open-note = bei { $slip } 1/min Differenzdrehzahl, je Element; { $formula }, und 0 lässt es weg.
page-losses-way = Leistung geht
page-losses-way-drive = Zugbetrieb: Der Antrieb treibt die Last
page-losses-way-coast = Schubbetrieb: Die Last treibt den Antrieb

## The page: pictures, link and embedding

page-share-section = Halbschnitt, SVG
page-share-lever = Hebel, SVG
page-share-link = Link auf diese Ansicht
page-share-embed = Diese Ansicht in eine Seite einbetten
page-share-form = Als
page-share-form-of = { $form ->
    [frame] Rahmen (iframe)
   *[element] Element
}
page-share-shown = Zu sehen
page-share-shown-of = { $shown ->
    [unfolded] auch, was hier aufgeklappt ist
    [all] alles
    [exercise] das Aufgabenblatt zu diesem Getriebe
    [sheet] das offene Aufgabenblatt
   *[plain] Ergebnis und Zeichnungen
}
page-share-locked = Nicht zu ändern
page-share-locked-of = { $locked ->
    [train] welches Getriebe es ist
    [elements] Kupplungen und Bremsen
    [all] alles
   *[other] nichts
}
page-share-theme-of = { $theme ->
    [light] hell
    [dark] dunkel
    [page] wie die Seite
   *[other] wie sein Leser es will
}
page-share-language = wie die Seite
page-share-save = { $file } speichern
page-share-beside = { $form ->
    [frame] { $file } in den Ordner der Website legen, neben frame.html.
   *[element] { $file } neben die eigene Seite legen.
}
page-share-sheet = das Aufgabenblatt „{ $title }“
page-share-host = { $form ->
    [frame] Liegt die Seite auf einem anderen Server, muss eine Content-Security-Policy, mit der dieser Ordner gesendet wird, sie in frame-ancestors nennen.
   *[element] Liegt die Seite auf einem anderen Server, muss dieser Ordner mit dem Header Access-Control-Allow-Origin: * gesendet werden (oder mit deren Herkunft statt des Sterns).
}
page-share-more = Alles, was eine Seite verlangen kann (auf Englisch)
page-share-own = Dieses Getriebe ist zu lang für einen Link, der höchstens { $most } Zeichen fasst: als Datei speichern und weitergeben.
page-share-copy = Kopieren
page-share-copied = Kopiert
page-share-selected = Markiert: jetzt kopieren

## The page: taking figures and tables away

page-take = Exportieren
page-take-of = Exportieren: { $what }
page-take-svg = SVG
page-take-png = PNG
page-take-svg-light = SVG, hell
page-take-png-light = PNG, hell
page-take-svg-shown = SVG, wie gezeigt
page-take-png-shown = PNG, wie gezeigt
page-take-csv = CSV
page-take-copy = Für Tabellenkalkulation kopieren
page-take-uncopied = Kopieren hier nicht möglich: CSV verwenden
page-take-section = Halbschnitt
page-take-lever = Hebeldiagramm
page-take-operating = Betriebsdiagramm
page-take-titled = { $what }, { $train }
page-take-none-applied = nichts geschlossen
page-take-exact = { $what }, exakt
page-take-group = Unter
page-take-speed = Drehzahl in { $unit }
page-take-torque = Drehmoment in { $unit }
page-take-power = Leistung in { $unit }
page-take-speed-share = Exakter Anteil der Antriebsdrehzahl
page-take-torque-share = Exakter Anteil des Antriebsmoments
page-take-power-share = Exakter Anteil der Antriebsleistung
page-take-loss = Verlust in { $unit }
page-take-grip = Haftung
page-take-wear = Übertragbares Moment bei konstantem Verschleiß in { $unit }
page-take-pressure = Übertragbares Moment bei konstanter Pressung in { $unit }
page-take-greatest = Größte Pressung in N/mm²

## The page: comparing

page-compare-note = Das jetzt Gezeigte anheften. Es steht dann hohl hinter den Hebeln und neben den Zahlen hier, was auch immer danach geändert oder geöffnet wird.
page-compare-pin = Gezeigtes anheften
page-compare-pin-again = Stattdessen jetzt Gezeigtes anheften
page-compare-unpin = Lösen
page-compare-what = { $shown }, { $train }
page-compare-legend = Angeheftet: { $what }
page-compare-pinned = Angeheftet
page-compare-now = Jetzt
page-compare-difference = Unterschied
page-compare-difference-words = Unterschied in Worten
page-compare-figure = Größe
page-compare-as-applied = Wie geschlossen
page-compare-ratios = Übersetzungen der Gänge
page-compare-steps = Stufensprünge
page-compare-spread = Spreizung
page-compare-holds = Was Kupplungen und Bremsen tragen, { $unit }
page-compare-slips = Differenzdrehzahl offener Kupplungen und Bremsen, { $unit }
page-compare-state = Zustand
page-compare-output = Abtriebsdrehzahl, { $unit }
page-compare-efficiency = Wirkungsgrad, %
page-compare-torque = Abtriebsmoment, { $unit }
page-compare-housing = Moment am Gehäuse, { $unit }
page-compare-same = gleich
page-compare-all-same = alles gleich
page-compare-differs = verschieden
page-compare-only-pinned = nur angeheftet
page-compare-only-now = nur jetzt
page-compare-by = um { $by } { $way ->
    [higher] höher
   *[lower] niedriger
}
page-compare-higher = höher
page-compare-lower = niedriger
page-compare-slips-signs = Beides bei der Antriebsdrehzahl und dem Antriebsmoment, die jetzt eingestellt sind. Ein Stufensprung ist eine Übersetzung durch die des nächsten Gangs; was eine Kupplung oder Bremse trägt, hat kein Vorzeichen.

## The page: worksheet

page-worksheet-note = Ein Blatt Papier, A4 oder Letter: der Halbschnitt mit lauter offenen Schaltelementen und Tabellen aller Gänge zum Ausfüllen. Das Blatt mit Lösungen hat sie anstelle der Lücken.
page-worksheet-leave = Lücken lassen für
page-worksheet-ratios = Übersetzungen
page-worksheet-states = Zustände
page-worksheet-held = feste Wellen
page-worksheet-speeds = Drehzahlen
page-worksheet-print = Mit Lücken drucken
page-worksheet-print-answers = Mit Lösungen drucken
page-worksheet-no-styles = seine Formatvorlagen wurden nicht geladen
page-worksheet-again = Netz prüfen und noch einmal drücken
page-worksheet-name = Name
page-worksheet-date = Datum
page-worksheet-answers = Lösungen
page-worksheet-input = Gezeichnet mit lauter offenen Schaltelementen: Gestricheltes ist frei. Der Antrieb dreht vorwärts mit { $speed }. Übersetzung: Antriebsdrehzahl durch Abtriebsdrehzahl; rückwärts drehende Wellen haben ein Minuszeichen.
page-worksheet-ranges = Was jeder Gang bewirkt
page-worksheet-shafts = Drehzahlen in jedem Gang, { $unit }
page-worksheet-applied = Geschlossen
page-worksheet-state = Zustand
page-worksheet-none = keine
page-worksheet-shown = Wie gezeigt

## The page: changing the train

page-panel-edit = Getriebe ändern
page-edit-note = Änderungen bleiben in diesem Browser als eigenes Getriebe erhalten, oben in der Liste; die Vorlage bleibt unverändert. Halbfertig ist kein Fehler: Was mit nichts verbunden ist, wird als frei gezeichnet.
page-edit-refused = Diese Änderung ist nicht möglich; alles bleibt, wie es war.
page-edit-undo = Rückgängig
page-edit-redo = Wiederholen
page-edit-save = Als Datei speichern
page-edit-begin = Neu beginnen
page-edit-repeat-train = Kopie öffnen
page-edit-delete = Getriebe löschen
page-edit-restore = Gelöschtes zurückholen
page-edit-begin-with = Womit beginnen
page-edit-nothing = leeres Getriebe
page-edit-starter = { $count ->
    [one] ein Satz
   *[other] { $count } Sätze in Reihe
}
page-edit-name = Name
page-edit-shafts = Namen der Wellen
page-edit-label = Name
page-edit-from-to = { $least } bis { $most }
# A field that finds rows of a long list, and how many it has found.
page-edit-find = Suchen
page-edit-find-in = Suchen in: { $list }
page-edit-found = { $count } von { $all }
page-edit-sets = Sätze
page-edit-no-sets = Es gibt noch keinen Satz.
page-edit-kind = Art
page-edit-add-set = Diesen Satz hinzufügen
page-edit-add = Hinzufügen
page-edit-repeat = Kopieren
page-edit-remove = Entfernen
page-edit-remove-what = { $label } entfernen
page-edit-earlier = { $label } in der Reihenfolge nach vorn
page-edit-later = { $label } in der Reihenfolge nach hinten
page-edit-part = Teil
page-edit-turns-with = Dreht mit
page-edit-teeth-of = Zähnezahl: { $gear }, { $label }
page-edit-pinions = Planeten
page-edit-pinions-of = Zahl der Planetenräder, { $label }
page-edit-shaft-of = Welle: { $member }, { $label }
page-edit-fit = Übernehmen: { $gears }
page-edit-fit-gear = { $gear } { $teeth }
page-edit-own-shaft = eine eigene Welle
page-edit-mesh = Zähne des zweiten Rads
page-edit-external = außen
page-edit-internal = innen
page-edit-brake = Bremse
page-edit-clutch = Kupplung
page-edit-one-way = Freilauf
page-edit-holds = hält
page-edit-joins = verbindet
page-edit-keeps = hindert
page-edit-way = Sperrrichtung
page-edit-from-backward = am Rückwärtsdrehen gegenüber
page-edit-from-forward = am Vorwärtsdrehen gegenüber
page-edit-give-friction = Übertragbares Moment…
page-edit-give-friction-to = Übertragbares Moment angeben: { $label }
page-edit-friction = Übertragbares Moment
page-edit-friction-of = { $what }, { $label }
page-edit-no-friction = Diese Angabe weglassen
page-edit-no-friction-of = Übertragbares Moment weglassen: { $label }
page-edit-surfaces = Reibflächen
page-edit-outer-radius = Außenradius, mm
page-edit-inner-radius = Innenradius, mm
page-edit-coefficient = Reibwert
page-edit-clamp-force = Anpresskraft, N
page-edit-give-engine = Motor davor und Last dahinter setzen
page-edit-no-engine = Motor und Last entfernen
page-edit-give-converter = Drehmomentwandler hinter den Motor setzen
page-edit-no-converter = Drehmomentwandler entfernen
page-edit-full = Vollgas
page-edit-motoring = Schubbetrieb, Pedal gelöst
page-edit-speed-ratio = Drehzahl{ "­" }verhältnis
page-edit-torque-ratio = Momenten{ "­" }verhältnis
page-edit-capacity-factor = Kapazitäts{ "­" }faktor in { $unit }
page-edit-point-of = { $what }, Punkt { $number }, { $list }
page-edit-add-point = Punkt nach Punkt { $number } hinzufügen, { $list }
page-edit-remove-point = Punkt { $number } entfernen, { $list }
page-edit-load = Last am Abtrieb
page-edit-load-constant = Widerstand bei jeder Drehzahl, { $unit }
page-edit-load-linear = dazu linear wachsend, bei 1000 1/min, { $unit }
page-edit-load-quadratic = dazu quadratisch wachsend, bei 1000 1/min, { $unit }
page-edit-load-weight = Gewicht: Moment hier, wenn es ganz an den Rädern hinge, { $unit }
page-edit-end-of = Woran { $label } sitzt
page-edit-first-end = An
page-edit-second-end = Und an
page-draw-grips = Teile des Getriebes, zum Ändern
page-draw-mode = Was die Zeichnung tut
page-draw-parts = Teile ändern
page-draw-clutches = Kupplungen schalten
page-draw-hint = Eine Linie von einem Teil zum anderen verbindet beide, auch zu Antrieb, Abtrieb oder Gehäuse. Ein Druck auf Teil, Satz, Kupplung oder + zeigt mehr.
page-draw-hint-join = Verbinden mit { $what }: das andere Teil drücken; mit Tasten führen die Pfeile dorthin, Eingabe wählt, Esc bricht ab.
page-draw-hint-clutches = Lamellen einer Kupplung oder Bremse drücken oder ziehen, um sie zu schließen oder zu öffnen.
page-draw-member = { $member }, { $set }
page-draw-on = { $member }, an { $shaft }
page-draw-pair = { $one } und { $other }
page-draw-gap = Platz des ersten Satzes
page-draw-gap-before = neuer Satz vor { $set }
page-draw-gap-after = neuer Satz nach { $set }
page-draw-new-set = Neuer Satz hier
page-draw-close = Schließen
page-draw-join = Verbinden mit…
page-draw-put-end-on = Ende setzen auf…
page-draw-instead = { $shaft } statt { $other }
page-draw-joins-already = Das ist schon verbunden.
page-draw-name = Name
page-draw-shaft-name = Name der Welle
page-draw-hold = Dauerhaft festhalten
page-draw-let-go = Drehen lassen
page-draw-cut-off = Abtrennen
page-draw-make-input = Zum Antrieb machen
page-draw-make-output = Zum Abtrieb machen
page-draw-one-shaft = Eine Welle
page-draw-one-already = Sie drehen bereits gemeinsam.
page-draw-to-input = Zum Antrieb hin
page-draw-to-output = Zum Abtrieb hin
page-draw-ratio = Übersetzung des Satzes
page-draw-ratio-now = { $formula } = { $ratio }: { $teeth }
page-draw-turn = Wenden
page-draw-any-place = Wo es am besten passt
page-draw-apply = Schließen
page-draw-release = Öffnen
page-draw-other-way = Andersherum sperren
page-draw-teeth = { $gear }, Zähne
page-draw-fewer = Eins weniger: { $what }
page-draw-more = Eins mehr: { $what }
page-edit-add-range = Geschlossenes als Gang übernehmen
page-edit-broken = { $kind }; die Zähne verletzen eine Regel
page-edit-is-range = { $range } schließt genau das. Etwas anderes in der Zeichnung schließen, dann wird daraus ein Gang.
page-edit-move = Verschieben
page-edit-take = Auf Geschlossenes setzen
page-edit-take-for = { $label } auf das jetzt Geschlossene setzen

## The page: the train as text

page-panel-file = Datei
page-file-note = Dies ist die Datei des gezeigten Getriebes. Wird sie geändert, folgt das Getriebe; wird das Getriebe geändert, wird sie neu geschrieben.
page-file-text = Das Getriebe als Text einer Datei
page-file-keeps = { $count ->
    [one] Ein Problem. Gezeigt wird das letzte Getriebe ohne Problem.
   *[other] { $count } Probleme. Gezeigt wird das letzte Getriebe ohne Problem.
}
page-file-line = Zeile { $line }
page-file-step-back = Der letzte Schritt am Getriebe ist zurückgenommen, wo auch immer er gemacht wurde.
page-file-step-again = Der zurückgenommene Schritt am Getriebe ist wieder gemacht.
page-file-back = Diesen Text verwerfen und den des Getriebes zeigen

## The page: an exercise sheet on paper

page-handout = Aufgabenblatt drucken
page-handout-note = Für eine Klasse: mit Platz für die Antworten oder mit ihnen.
page-handout-which = Aufgabenblatt
page-handout-file = Eine Datei …
page-handout-on-screen = Diesen Gang zuerst am Bildschirm mit dem Rundgang durchgehen: Fragen unten fragen danach.
page-handout-apply = Geschlossen:
page-handout-order = Der Reihe nach:
page-handout-becomes = { $range }: { $words }
page-handout-number = { $plain } ({ $exact })

## The page: in class

page-class = Im Unterricht
page-class-title = Im Unterricht: ganzer Bildschirm, Schrift für die letzte Reihe ({ $key })
page-class-of = Im Unterricht: { $train }
page-class-bar = Was gezeigt wird
page-class-by-key = { $words } ({ $key })
page-class-next = Weiter
page-class-back = Zurück
page-class-way = Was als Nächstes kommt
page-class-way-name = { $way ->
    [steps] Schritte
   *[ranges] Gänge
}
page-class-hide = Verbergen
page-class-part = { $part ->
    [ratio] Übersetzung
    [words] Worte
   *[numbers] Zahlen
}
page-class-show = Alles zeigen
page-class-end = Beenden
page-class-hidden = { $part ->
    [ratio] Übersetzung verborgen
   *[words] Worte verborgen
}
page-class-key = { $part ->
    [ratio] U
    [words] W
    [numbers] Z
    [all] A
   *[steps] S
}
page-fix-class = die Schaltfläche noch einmal drücken

## The page: walkthrough

page-panel-walk = Rundgang
page-walk-flow = Leistungsfluss, Schritt für Schritt
page-walk-steps = Schritte des Rundgangs
page-walk-previous = Zurück
page-walk-next = Weiter
page-walk-play = Abspielen
page-walk-stop = Anhalten
page-walk-close = Schließen
page-walk-pace = Tempo
page-walk-seconds = { $seconds } s je Schritt
page-walk-told = Schritt { $at } von { $of }: { $text }
page-walk-known = Bekannte Drehzahlen: { $shafts }.
page-walk-parts = Was jedes Glied tut
page-walk-member = Glied
page-walk-does = Tut
page-walk-torque = Moment je Antriebsmoment
page-walk-shift = Schaltung in einen anderen Gang
page-walk-to = Schalten in
page-walk-speeds = Drehzahlen vor und nach der Schaltung
page-walk-per-turn = Drehzahlen je Antriebsumdrehung.
page-walk-before = Vorher
page-walk-after = Nachher
page-walk-difference = Unterschied
page-walk-change = Änderung

## The page: working, slip, bearings, end view, tooth checks

page-working-ratio = Formel der Übersetzung
page-working-sets = Drehzahlgleichung jedes Satzes
page-working-none = { $state }: Es gibt keine Übersetzung zu berechnen.
page-working-only-these = Die Übersetzung gilt nur für genau diese Zähnezahlen: Eine Formel in Symbolen gibt es nicht.
page-working-only-these-spare = Mehr geschlossen als nötig, und das passt nur bei genau diesen Zähnezahlen zusammen: Eine Formel in Symbolen gibt es nicht.
page-working-too-long = Die Formel dieser Übersetzung ist zum Lesen zu lang und daher nicht ausgeschrieben.
page-working-symbols = { $ratio } ist Antriebsdrehzahl durch Abtriebsdrehzahl; { $symbols }.
page-working-sun = S und R sind die Zähnezahlen von Sonnenrad und Hohlrad, C ist der Steg
page-working-two-suns-ring = Sa, Sb und R sind die Zähnezahlen von kleinem Sonnenrad, großem Sonnenrad und Hohlrad, C ist der Steg
page-working-two-suns = Sa und Sb sind die Zähnezahlen des ersten und zweiten Sonnenrads, C ist der Steg
page-working-steps = P und Q sind die Zähnezahlen der beiden Stufen eines Stufenplaneten, Q die am Hohlrad oder am zweiten Sonnenrad
page-working-pair = Za und Zb sind die Zähnezahlen des ersten und zweiten Rads eines Räderpaars
page-working-speed = ω ist eine Drehzahl
page-working-count = die letzte Ziffer zählt die Sätze der Reihe nach
page-slips = Differenzdrehzahl offener Schaltelemente
page-slips-element = Offenes Element
page-slips-in = Differenzdrehzahl, { $unit }
page-slips-none = Nichts ist offen.
page-slips-of = { $first-label }
page-slips-past = { $first-label } gegen { $second-label }
page-slips-signs = Bei einer Bremse ist es die Drehzahl dessen, was sie festhalten würde. Bei einer Kupplung ist es die Drehzahl der ersten Seite gegenüber der zweiten: positiv, wenn die erste, von der zweiten aus gesehen, vorwärts dreht.
page-meshes = Zahneingriffe
page-mesh = Zahneingriff
page-per-output-turn = Je Umdr. Abtrieb
page-meshes-note = Die Ordnung eines Zahneingriffs ist die Zahl der Eingriffe je Umdrehung des Antriebs oder des Abtriebs. Mal Umdrehungen je Sekunde ergibt sie die Frequenz, hier bei { $speed } am Antrieb.
page-pins = Planetenbolzen
page-pin = Planetenrad auf dem Bolzen
page-pin-teeth = Zähne
page-pin-speed = Relativ zum Steg, { $unit }
page-end-view-set = Vom Antrieb her gesehen
page-teeth-note = { $set }: { $text }.

## The panel of a train on the road

page-panel-traction = Zugkraft und Fahren
page-drawing-traction = Zugkraftdiagramm und Sägezahndiagramm: { $train }
page-traction-lack = { $what } { $fix }
page-traction-rule = Hochschalten
page-traction-by-force = wo sich die Zugkraftlinien schneiden
page-traction-by-speed = bei einer Motordrehzahl
page-traction-shift-speed = Motordrehzahl zum Schalten
page-traction-lockup = Drehmomentwandler
page-traction-open = in allen Gängen offen
page-traction-locked-from = überbrückt ab { $range }
page-traction-slopes = Steigungen der Straße
page-traction-cursor = Betrachtete Fahrgeschwindigkeit
page-traction-at = Bei { $speed }:
page-traction-reads = { $range }: { $force }, Motor { $speed }
page-traction-road-reads = Straße, { $slope }: { $force }
page-traction-nothing-runs = in keinem Gang läuft der Motor
page-traction-plot-note = Irgendwohin zeigen, um die Werte bei dieser Geschwindigkeit zu lesen; eine Linie antippen, um ihren Gang zu schalten. Mit der Tastatur: Pfeiltasten auf dem Diagramm ändern die Geschwindigkeit, die Tasten in der Tabelle schalten einen Gang.
# Of a table, by what it lists.
page-traction-table = { $table ->
    [ranges] Was jeder Gang bei Vollgas kann
    [shifts] Schaltungen der Beschleunigung aus dem Stand
   *[run] Beschleunigung aus dem Stand bei Vollgas in der Ebene
}
page-traction-column = { $column ->
    [range] Gang
    [ratio] Übersetzung
    [top] Höchstgeschwindigkeit in der Ebene, { $unit }
    [top-engine] Motor dabei, { $unit }
    [climb] größte Steigung, { $unit }
    [climb-at] bei, { $unit }
    [shift] Schaltung
    [at] Geschwindigkeit, { $unit }
    [before] Motor vorher, { $unit }
    [after] Motor nachher, { $unit }
    [force-before] Zugkraft vorher, { $unit }
    [force-after] Zugkraft nachher, { $unit }
    [speed] Geschwindigkeit
    [time] Zeit, { $unit }
   *[distance] Weg, { $unit }
}
page-traction-limit = Drehzahlgrenze
page-traction-any = jede Straße
page-traction-at-limit = letzte Drehzahl des Motors
page-traction-nearly = 99 % der Höchstgeschwindigkeit
page-traction-fastest = Am schnellsten ist { $range }: { $speed } in der Ebene.
page-traction-steepest = Der Kraft nach schafft { $range } { $slope } % Steigung, wenn die Reifen sie übertragen.
page-traction-steepest-any = { $range }: Die Kraft allein reicht für jede Straße, auch über 100 % Steigung; die Reifen rutschen lange vorher.
page-traction-time = Aus dem Stand sind { $speed } nach { $time } s erreicht.
page-traction-vehicle = Masse { $mass } kg, nach dem Gewicht der Last in der Datei.
page-traction-weightless = Die Last in der Datei hat kein Gewicht: Steigungen verlangen nichts weiter.
page-traction-stated-title = Räder, Achsübersetzung und Trägheit des Motors ändern
page-traction-stated-note = Was eingetragen wird, kommt in die Datei und lässt sich zurücknehmen. Die Last mit ihrem Gewicht wird beim Getriebe geändert, Trägheiten von Wellen und von allem hinter dem Abtrieb in Schaltung im Zeitverlauf.
page-traction-stated = { $what ->
    [wheel-radius] Radius eines Antriebsrads
    [final-drive] Achsübersetzung
   *[engine-inertia] Trägheit des Motors
  }
page-traction-assumed = Angenommen, da die Datei es nicht sagt: { $values }.
page-traction-assumed-value = { $what ->
    [wheel-radius] Radius der Räder { $value } m
    [final-drive] Übersetzung des Achsgetriebes { $value }
    [engine-inertia] Trägheitsmoment des Motors { $value } kg·m²
    [shaft-inertia] Trägheitsmoment von Wellen ohne Angabe je { $value } kg·m²
   *[load-inertia] Trägheitsmoment hinter dem Abtrieb { $value } kg·m²
}
page-traction-note = Vollgas, ebene Straße, kein Wind; Schaltungen dauern nicht und unterbrechen die Zugkraft nicht. Unter der niedrigsten Motordrehzahl rutscht eine Anfahrkupplung oder der offene Wandler; der Motor hinter einem Wandler gilt jederzeit als eingeschwungen, seine eigene Trägheit bleibt dort außer Betracht, und Zeiten sind um einige Prozent zu kurz. Zahneingriffe verlieren, was für Verluste angenommen ist; das Achsgetriebe verliert nichts.
page-traction-caution = Ideal: Die Reifen übertragen hier jede Kraft, was große Steigungen in niedrigen Gängen bei weitem übersteigen. Über Fahrzeuge und Lasten, Steigungen und Geschwindigkeiten entscheiden nicht diese Zahlen, sondern die Angaben des Herstellers und Fachleute.

## The page: engine and road

page-operating-point = Betriebspunkt
page-operating-note = Nur stationärer Betrieb, nach Tabellen und dem Wirkungsgrad je Zahneingriff unter Verluste; das Schleppmoment offener Elemente ist weggelassen. Bei kleinster Drehzahl hält eine Leerlaufregelung den Motor in Gang. Zum Lernen und für frühe Entwürfe: Vorrang haben die Serviceunterlagen des Herstellers.
page-operating-pedal = Fahrpedal
page-operating-slope = Steigung
page-operating-level = eben
page-operating-up = { $slope } bergauf
page-operating-down = { $slope } bergab
page-operating-lockup = Wandlerüberbrückung geschlossen
page-operating-use = Übernehmen: { $speed }, { $torque }
page-operating-output = Abtrieb { $torque }
page-operating-none = kein stationärer Punkt
page-operating-unstable = Stationär, aber instabil
page-operating-idle = Stationär im Leerlauf, stabil
page-operating-stable = Stationär, stabil
page-operating-stall = Festbremspunkt: Abtrieb steht
page-operating-resists = die Last leistet Widerstand mit { $torque }
page-operating-drives = die Last treibt mit { $torque }
page-operating-engine = Motor
page-operating-pump = Motor, Pumpenrad
page-operating-turbine = Antrieb, Turbinenrad
page-operating-locked = Motor und Antrieb gekoppelt, Wirkungsgrad der Räder { $gears }
page-operating-open = Drehzahlverhältnis { $speed }, Momentenverhältnis { $torque }, Wirkungsgrad des Wandlers { $converter } und der Räder { $gears }

## The page: clutch capacity

page-capacity-margins = Sicherheiten
page-capacity-element = Element
page-capacity-margin = Sicherheit
page-capacity-must-hold = Gefordert, { $unit }
page-capacity = Übertragbares Moment
page-capacity-in = Übertragbar, { $unit }
page-capacity-wear = Konstanter Verschleiß
page-capacity-pressure = Konstante Pressung
page-capacity-margin-note = Sicherheit: übertragbares Moment bei konstantem Verschleiß durch gefordertes Moment, ohne Verluste. Der Strich quer zum Balken ist 1; darunter rutscht das Element.
page-capacity-note = Übertragbares Moment bei konstantem Verschleiß (eingelaufene Beläge): Reibwert × Anpresskraft × Reibflächen × mittlerer Radius; bei konstanter Pressung (neue Beläge) etwas mehr. Zuletzt die größte Pressung eines eingelaufenen Belags.
page-capacity-caution = Zum Lernen und für frühe Entwürfe, kein Festigkeitsnachweis: Reibwert und Kraft ändern sich mit Öl, Wärme und Verschleiß. Vorrang haben die Serviceunterlagen des Herstellers.
page-capacity-hint = hält bis { $torque }
page-capacity-none-slips = Bei { $torque } Antriebsmoment rutscht es in keinem Gang.
page-capacity-slip = Bei { $torque } Antriebsmoment rutscht es in diesen Gängen: { $ranges }.
page-capacity-first = { $element } rutscht zuerst, über { $torque } am Antrieb
page-capacity-no-drive = kein Kraftschluss
page-capacity-shared = mehr geschlossen als nötig: nicht bestimmt
page-capacity-no-data = nichts mit Reibungsdaten
page-grip = { $grip ->
    [slips] rutscht
    [holds] hält
    [idle] überträgt kein Drehmoment
    [undetermined] nicht bestimmt
   *[no-data] keine Daten
}

## Faults

fault-cut-off = { $member } von { $set }, abgetrennt
fault-one-ways-lock = Verspannt: Der Antrieb könnte sich nur drehen, wenn ein Freilauf in seiner Sperrrichtung nachgäbe.

## Exercises

ask-reach = Kupplungen und Bremsen so schließen, dass die Übersetzung { $about } ist (exakt { $exact }).
ask-members = { $part ->
    [held] { $range }, { $set }: Welche Glieder werden gegen das Reaktionsmoment abgestützt?
    [driving] { $range }, { $set }: Über welche Glieder geht Leistung in den Satz hinein?
   *[driven] { $range }, { $set }: Über welche Glieder kommt Leistung aus dem Satz heraus?
}
ask-direction = { $range }: In welche Richtung dreht { $shaft }?
ask-speed = { $range }: Wie viele Umdrehungen macht { $shaft }, während der Antrieb eine macht? Als Dezimalzahl oder Bruch, mit Minuszeichen bei Rückwärtsdrehung.
ask-neutral = { $count ->
    [one] Eine Kupplung oder Bremse ist geschlossen. Bei welcher ist das Getriebe neutral? Alle finden.
   *[other] { $count } Kupplungen oder Bremsen sind geschlossen. Bei welchen ist das Getriebe neutral? Alle finden.
}
ask-tie-up = Welche dieser Kombinationen sind verspannt?
ask-order = Diese Gänge ordnen, die größte Übersetzung zuerst.
ask-teeth = { $range }, { $set }: Zähnezahlen wählen, mit denen die Übersetzung { $about } ist (exakt { $exact }) und keine Zahnregel verletzt.
ask-given = { $count ->
    [0] { $range }: Nichts ist geschlossen.
    [one] { $range }: { $elements } ist geschlossen.
   *[other] { $range }: { $elements } sind geschlossen.
}
ask-none = nichts geschlossen
ask-way = { $way ->
    [forward] vorwärts, wie der Antrieb
    [backward] rückwärts
    [still] steht still
   *[free] frei: Nichts bestimmt die Drehzahl
}
ask-failed = Eine Kupplung, eine Bremse oder ein Freilauf ist ausgefallen, und das ist aus den Gängen geworden. Was ist es?
ask-row = { $range } · { $elements }
ask-becomes = { $does ->
    [right] wie es soll
    [no-engine-braking] wie es soll, aber ohne Motorbremswirkung
    [engine-braking] wie es soll, aber mit Motorbremswirkung, die nicht sein soll
    [lost] neutral: Es kommt nichts an
    [slips] rutscht
    [drives] stattdessen { $ratio }
    [output-held] der Abtrieb ist festgehalten
    [ties-up] verspannt
   *[undecided] unbestimmt
}
hint-becomes = { $range }: Ein Fehler an { $element } würde etwas anderes daraus machen.
hint-no-choice = Zuerst eine Antwort wählen.
hint-no-number = Eine Zahl schreiben wie 0,25, −1/3 oder 2.
hint-no-teeth = Für jedes Rad eine ganze Zahl von { $least } bis { $most } Zähnen schreiben.
hint-no-answer = Darauf hat dieses Getriebe keine Antwort.
hint-not-that = Das ist es nicht.
hint-other-way = Die Drehrichtung ist umgekehrt.
hint-too-slow = Der Abtrieb dreht zu langsam: Die Übersetzung ist zu groß.
hint-too-fast = Der Abtrieb dreht zu schnell: Die Übersetzung ist zu klein.
hint-less-fast = Die Richtung stimmt, die Drehzahl ist aber kleiner.
hint-more-fast = Die Richtung stimmt, die Drehzahl ist aber größer.
hint-only-the-way = Der Betrag stimmt; noch einmal auf die Richtung achten.
hint-reciprocal = So oft dreht der Antrieb, während hier eine Umdrehung gemacht wird; gefragt ist es umgekehrt.
hint-spare = Das ist die Übersetzung, aber es ist mehr geschlossen als nötig.
hint-changes = { $count ->
    [one] Es fehlt ein Schritt: eine Kupplung oder Bremse schließen oder öffnen.
   *[other] Es fehlen { $count } Schritte: so viele Kupplungen oder Bremsen schließen oder öffnen.
}
hint-does = { $elements }: { $state ->
    [driving] Das ergibt Kraftschluss.
    [neutral] Das ist neutral.
    [output-held] Das hält den Abtrieb fest.
   *[tied-up] Das ist verspannt.
}
hint-missing = { $count ->
    [one] Eine richtige Antwort ist noch nicht gewählt.
   *[other] { $count } richtige Antworten sind noch nicht gewählt.
}
hint-member = { $member }: { $does ->
    [held] wird gegen das Reaktionsmoment abgestützt.
    [drives] treibt, hier geht Leistung in den Satz hinein.
    [delivers] gibt ab, hier kommt Leistung aus dem Satz heraus.
    [rests] steht still, überträgt aber kein Drehmoment.
   *[idles] dreht, überträgt aber kein Drehmoment.
}
hint-look = { $set } betrachten: { $first } { $first-way ->
    [forward] dreht vorwärts
    [backward] dreht rückwärts
   *[still] steht still
}, { $second } { $second-way ->
    [forward] dreht vorwärts
    [backward] dreht rückwärts
   *[still] steht still
}.
hint-look-one = { $set } betrachten: { $first } { $first-way ->
    [forward] dreht vorwärts
    [backward] dreht rückwärts
   *[still] steht still
}.
hint-compare = { $first } und { $second } noch einmal vergleichen.
hint-back-to-front = Es ist genau umgekehrt: Wo die Übersetzung am größten ist, dreht der Abtrieb am langsamsten.
hint-rule = Eine Zahnregel ist verletzt: { $rule }.
page-panel-exercises = Übungen
page-exercise-untouched = { $by ->
    [stage] Noch ist nichts geschlossen.
   *[counts] Noch ist keine Zähnezahl geändert.
}
page-exercise-note = Fragen zum Getriebe auf der Bühne. Was die Antwort verriete, bleibt verdeckt, bis geantwortet ist. Die erste Antwort zählt ganz, eine bessere nach Hinweisen halb.
page-exercise-kind = Fragen
# The kinds by their names in a sheet.
page-exercise-kind-of = { $kind ->
    [mixed] aller Arten
    [reach] eine Übersetzung erreichen
    [members] was hält, antreibt, abgibt
    [direction] welche Drehrichtung
    [speed] welche Drehzahl
    [neutral] Neutral finden
    [tie-up] Verspannung erkennen
    [order] Gänge ordnen
    [failed] was ausgefallen ist
   *[teeth] Zähnezahlen wählen
}
page-exercise-begin = { $count } Fragen
page-exercise-fresh = Eben gestellte Fragen
page-exercise-sheet = Das Aufgabenblatt zu diesem Getriebe
page-exercise-open = Aufgabenblatt öffnen …
page-exercise-place = Frage { $at } von { $of }, bisher { $points } { $much ->
    [one] Punkt
   *[other] Punkte
}
page-exercise-next = Nächste Frage
page-exercise-finish = Zum Ergebnis
page-exercise-stop = Beenden
page-exercise-score = { $whole ->
    [yes] Fertig: { $points } von { $of } Punkten, { $share } %.
   *[no] Abgebrochen: { $points } von { $of } Punkten.
}
page-exercise-results = Frage für Frage
# A question in the list of results; points of one each.
page-exercise-mark = { $mark ->
    [right] Richtig
    [later] Richtig, nach Hinweisen
    [part] Teilweise richtig
    [wrong] Nicht richtig
    [shown] Antwort gezeigt
   *[open] Nicht beantwortet
}: { $points } { $much ->
    [one] Punkt
   *[other] Punkte
}
page-exercise-answer = Antwort: { $answer }
page-exercise-becomes = Wurde zu
page-exercise-check = Prüfen
page-exercise-reveal = Antwort zeigen
page-exercise-shown = Das ist die Antwort.{ $stage ->
    [yes] { " " }Das Getriebe zeigt sie.
   *[no] { "" }
}
page-exercise-still = Bis das beantwortet ist, ist in der Zeichnung nichts geschlossen: Sie würde die Antwort verraten.
page-exercise-right = Richtig.
page-exercise-right-later = Richtig. Nach Hinweisen zählt es { $share } %.
page-exercise-part = Teilweise richtig: { $share } %.
page-exercise-wrong = Nicht richtig.
page-exercise-on-stage = Mit den Kupplungen und Bremsen in der Zeichnung antworten, dann prüfen.
page-exercise-number = Umdrehungen je Umdrehung des Antriebs
page-exercise-up = { $what }: nach oben
page-exercise-down = { $what }: nach unten
page-exercise-setting = Aufgabenblatt zusammenstellen
page-exercise-setting-note = Fragen aus dem zusammenstellen, was zu sehen ist. Ein Aufgabenblatt enthält keine Antworten: Sie werden berechnet, wenn jemand antwortet.
page-exercise-set = Satz
page-exercise-shaft = Welle
page-exercise-part-of = Gefragt
page-exercise-part-name = { $part ->
    [held] was gegen die Reaktion gehalten wird
    [driving] was antreibt
   *[driven] was abgibt
}
page-exercise-from = { $kind ->
    [reach] Fragt nach der Übersetzung, die jetzt auf der Bühne ist.
    [neutral] Fragt nach allem, was neutral ist, mit so vielen geschlossenen Schaltelementen wie jetzt auf der Bühne.
    [tie-up] Die Kombinationen werden ausgewürfelt.
    [order] Die Gänge werden gemischt.
    [failed] Der Fehler wird ausgewürfelt.
    [teeth] Gang, Satz und Übersetzung werden so ausgewürfelt, dass es Zähnezahlen dafür gibt.
   *[chosen] Auswählen, wonach gefragt wird.
}
page-exercise-first = { $missing ->
    [ratio] Erst etwas schließen, das antreibt: Eine Frage nach einer Übersetzung nimmt sie von der Bühne.
   *[range] Für einen Rundgang erst den Gang schließen.
}
page-exercise-add = Frage hinzufügen
page-exercise-walk-add = Vorab ein Rundgang in diesem Gang
page-exercise-walk-of = Rundgang: { $range }
page-exercise-remove = Entfernen: { $what }
page-exercise-title = Titel
page-exercise-untitled = Fragen zu { $train }
page-exercise-unasked = { $what } (so, wie das Getriebe jetzt ist, nicht möglich, daher ausgelassen)
page-exercise-not-added = { $why ->
    [twice] Nicht hinzugefügt: „{ $what }“ ist schon auf dem Aufgabenblatt.
    [full-walk] Nicht hinzugefügt: Ein Aufgabenblatt geht höchstens { $what } Gänge durch.
   *[full] Nicht hinzugefügt: Ein Aufgabenblatt hat höchstens { $what } Fragen.
}
page-exercise-drop = Leeren
page-exercise-back = Zurückholen, was da war
page-exercise-take = Geöffnetes Aufgabenblatt ändern
page-exercise-lasts = { $lasts ->
    [yes] Dieser Browser behält das Aufgabenblatt, zu diesem Getriebe.
   *[no] Dieser Browser behält das Aufgabenblatt nicht: vor dem Verlassen der Seite als Datei speichern.
}
page-exercise-aside = Beiseitegelegt: „{ $title }“{ $named ->
    [yes] { " " }zu { $train }
   *[no] { "" }
}, mit { $count ->
    [one] einer Zeile
   *[other] { $count } Zeilen
}.
page-exercise-again = Daran weiterarbeiten
page-exercise-again-of = Daran weiterarbeiten: { $title }
page-walk-first = Zuerst ein Rundgang: { $range } ({ $at } von { $of })
page-walk-on = { $to ->
    [range] Weiter zum nächsten Gang
    [questions] Weiter zu den Fragen
   *[end] Fertig damit
}
page-walk-again = { $range } wieder zeigen
page-walk-through = Durchgegangen.
page-exercise-try = Ausprobieren
page-exercise-save = Als Datei speichern
page-exercise-unresumed = Der Stand in diesem Aufgabenblatt ist nicht mehr bekannt
page-problem-progress = was aufbewahrt war, gehört zu einem anderen Aufgabenblatt oder ist beschädigt
page-fix-progress = mit der ersten Frage beginnen
page-exercise-find = die Adresse des Aufgabenblatts prüfen
page-exercise-refused = Danach lässt sich bei diesem Getriebe nicht fragen
page-lesson-begun = { $kept ->
    [yes] Das Kurssystem merkt sich den Stand.
   *[no] Es wurde kein Kurssystem gefunden, daher wird kein Ergebnis aufbewahrt. Die Lektion läuft trotzdem.
}
page-lesson-kept = { $done ->
    [yes] Fertig und dem Kurssystem gemeldet: { $points } von { $of } Punkten.
   *[no] Dem Kurssystem bisher gemeldet: { $points } von { $of } Punkten.
}
page-lesson-walked = { $done ->
    [yes] Durchgegangen und dem Kurssystem gemeldet.
   *[no] Bisher { $at } von { $of } durchgegangen.
}
page-lesson-trouble = Das Kurssystem hat nicht alles angenommen ({ $reason }). Bitte der Kursleitung sagen.
page-package = Paket für ein Kurssystem
page-package-note = Eine Lektion als eine Datei mit allem, was sie braucht: der Rundgang und die Fragen eines Aufgabenblatts, zum Getriebe auf der Bühne und in der Sprache dieser Seite. Kurssysteme, die SCORM lesen, öffnen sie unverändert; für xAPI kommen ihre Dateien auf einen Server, und die lesson.html darunter wird mit den üblichen Parametern geöffnet.
page-package-sheet = Aufgabenblatt
page-package-form = Für
page-package-pass = Bestanden ab, %
page-package-pass-note = Bleibt das Feld leer, ist die Lektion mit jedem Ergebnis abgeschlossen.
page-package-save = Paket speichern
page-package-busy = Wird zusammengestellt …
page-package-none = Zuerst ein Aufgabenblatt zusammenstellen oder öffnen.
page-package-refused = Das Paket ließ sich nicht herstellen
page-problem-package = { $file } war nicht zu bekommen ({ $reason })
page-problem-list = sie nennt keine Dateien
page-fix-package = die Verbindung prüfen und es noch einmal versuchen
page-problem-pass = das ist keine Zahl von 1 bis 100
page-fix-pass = einen Prozentwert schreiben, oder nichts
page-problem-no-pass = eine Lektion ohne Fragen hat kein Ergebnis
page-fix-no-pass = leer lassen oder eine Frage hinzufügen
problem-ratio = { $found } ist keine Übersetzung
fix-ratio = in Anführungszeichen schreiben, als "27/7" oder "3.857"
problem-too-many-one-ways = { $found } Freiläufe sind mehr, als Fragen zulassen
fix-fewer-one-ways = nach einem Getriebe mit höchstens { $most } fragen
problem-no-answer = dieses Getriebe hat darauf keine Antwort
fix-no-answer = etwas fragen, das dieses Getriebe kann

## Finding teeth: problems of what is asked

problem-layout-pair = ein Räderpaar auf zwei Achsen
fix-layout-pair = verwenden Sie Sätze, die sich um eine Achse drehen
problem-layout-rows = die Sätze haben zusammen { $found } Eingriffsgleichungen
fix-layout-rows = verwenden Sie weniger oder einfachere Sätze, sodass es höchstens { $most } sind: ein Ravigneaux-Satz hat zwei, jeder andere eine
problem-layout-order = { $found } kommt nicht nach { $before }
fix-layout-order = führen Sie die Vorwärtsübersetzungen von der größten zur kleinsten auf
problem-layout-few-elements = höchstens { $elements } Kupplungen und Bremsen, von denen je { $applied } geschaltet sind, ergeben { $most } Kombinationen, und { $ranges } Gänge sind gewünscht
fix-layout-few-elements = mehr Kupplungen und Bremsen zulassen, eine andere Zahl davon schalten oder weniger Gänge wünschen
problem-layout-step-ratios = die gewünschten Übersetzungen der Gänge { $first } und { $second } liegen um den Faktor { $low } bis { $high } auseinander, die Stufen dazwischen ergeben aber { $least } bis { $most }
fix-layout-step-ratios = andere Stufen zulassen oder andere Übersetzungen wünschen
problem-layout-spread-ratios = eine Spreizung von { $found } widerspricht den gewünschten Übersetzungen des ersten und des letzten Vorwärtsgangs, nach denen sie { $least } bis { $most } ist
problem-layout-spread-steps = eine Spreizung von { $found } widerspricht den Stufen zwischen den Vorwärtsgängen, nach denen sie { $least } bis { $most } ist
fix-layout-spread = die Spreizung offenlassen oder ändern, was ihr widerspricht
problem-layout-direct = ein direkter Gang ist gewünscht, aber kein Vorwärtsgang darf die Übersetzung 1 haben
fix-layout-direct = für einen die Übersetzung 1 wünschen, einen offenlassen oder keinen direkten Gang verlangen
problem-layout-empty = mit { $applied } geschalteten Elementen je Gang gibt es { $shafts } Wellen, und diese Sätze lassen sich nicht so mit so vielen verbinden, dass { $elements } Kupplungen und Bremsen auf alle wirken
fix-layout-empty = weniger gleichzeitig schalten, mehr Kupplungen und Bremsen zulassen oder mehr Sätze nehmen
problem-ask-nothing = es ist kein Gang genannt, für den etwas gewünscht wird
fix-ask-nothing = einen Gang nennen und die Übersetzung, die er haben soll
problem-ask-teeth = { $least } bis { $most } ist kein Bereich von Zähnezahlen
fix-ask-teeth = zwei Zahlen von { $least } bis { $most } schreiben, die kleinere zuerst
problem-ask-pinions = es gibt keine Anzahl von Planetenrädern zur Wahl, oder eine, die nicht erlaubt ist
fix-ask-pinions = Zahlen von 1 bis { $most } schreiben
problem-ask-best = nichts sagt, was ein Getriebe besser macht als ein anderes
fix-ask-best = mindestens ein Merkmal nennen
problem-ask-no-ring = der Satz „{ $id }“ hat kein Hohlrad
problem-ask-no-pair = „{ $id }“ ist kein Zahnradpaar
fix-ask-no-ring = ihn weglassen
fix-ask-twice = jeden Gang einmal nennen
problem-ask-sets = { $found } Sätze haben Zähnezahlen, die zu suchen sind
fix-ask-sets = anderen ihre Zähne lassen, sodass 1 bis { $most } bleiben, und nach einer Übersetzung fragen, die von ihnen abhängt
problem-ask-no-cuts = keine Zähnezahlen von { $label } in diesen Grenzen halten alle Regeln ein
fix-ask-no-cuts = mehr Zähne oder andere Anzahlen von Planetenrädern zulassen, eine Regel weglassen oder dem Satz seine Zähne lassen
problem-ask-many-cuts = { $label } hat in diesen Grenzen zu viele Zähnezahlen, um alle zu prüfen
fix-ask-many-cuts = die Grenzen enger ziehen oder alle Regeln verlangen
problem-ask-ratios = eine Übersetzung hängt von mehr Sätzen ab, als zugleich gesucht werden
fix-ask-ratios = einigen ihre Zähne lassen, sodass jede Übersetzung von höchstens { $most } Zahnverhältnissen abhängt
problem-ask-no-ratio = „{ $range }“ treibt nicht an
problem-ask-only-these = „{ $range }“ treibt nur mit genau den Zähnezahlen an, die das Getriebe hat
problem-ask-too-long = die Übersetzung von „{ $range }“ verbindet zu viele Sätze
fix-ask-leave-out = ihn weglassen oder ändern, was er schaltet
problem-ask-unreachable = { $range } kann mit Zähnezahlen in diesen Grenzen nicht die Übersetzung { $wanted } haben, sondern nur { $least } bis { $most }
problem-other-search = hier stand eine andere Suche, oder die einer älteren Fassung
fix-other-search = von vorn beginnen oder mit der Aufgabe weitermachen, zu der der Stand gehört
problem-other-version = eine andere Fassung hat das geschrieben, im Format { $found } und nicht { $format }, und teilt eine Suche anders auf
fix-other-version = löschen Sie es und lassen Sie dasselbe mit dieser Fassung noch einmal laufen
problem-no-mark = die erste Zeile sagt nicht, von welchem Teil sie ist
problem-other-task = das ist ein Teil einer anderen Aufgabe
fix-other-task = vereinen Sie die Teile einer Aufgabe
problem-other-count = das ist einer von { $count } Teilen, die davor sind von { $known }
fix-other-count = vereinen Sie Teile einer Aufteilung
problem-missing-shards = Teile fehlen: { $shards }
fix-missing-shards = lassen Sie sie laufen und vereinen Sie alle
problem-ask-spread = die Spreizung oder ein Stufensprung kann mit Zähnezahlen in diesen Grenzen nicht { $wanted } sein, sondern nur { $least } bis { $most }
fix-ask-fixed = verlangen Sie diese oder lassen Sie das Feld leer: sie ist mit allen Zähnen dieselbe
fix-ask-unreachable = etwas dazwischen verlangen oder andere Zähne zulassen
problem-ask-order = wo Übersetzungen offen sind, fallen sie von Gang zu Gang, aber mit den gewünschten kann „{ $first }“ keine größere als „{ $second }“ haben
fix-ask-order = fallende Übersetzungen wünschen oder einen Gang weglassen
problem-ask-spread-ratios = eine Spreizung von { $wanted } widerspricht den gewünschten Übersetzungen: { $first } durch { $last } ist mit ihnen { $least } bis { $most }
problem-ask-steps-ratios = Stufen, die sich um den Faktor { $wanted } ändern, widersprechen den gewünschten Übersetzungen: von { $first } bis { $last } ist er mit ihnen { $least } bis { $most }
fix-ask-spread-ratios = das oder die Übersetzungen offenlassen oder größere Abweichungen zulassen
problem-ask-rings = { $labels } können mit Zähnen innerhalb der Grenzen keine gleich großen Hohlräder haben
problem-ask-distances = { $labels } können mit Zähnen innerhalb der Grenzen keine gleichen Achsabstände haben
fix-ask-rings = andere Zähne zulassen, einen davon weglassen oder seine Zähne nicht behalten

## The page: fault finding

page-panel-faults = Fehlersuche
page-faults-does = Was ein Fehler bewirkt
page-faults-explains = Was es erklärt
page-faults-first = Fehler
page-faults-second = und ein zweiter
page-faults-none = keiner
page-faults-pick = Einen Fehler wählen, um zu sehen, was aus jedem Gang wird.
page-faults-fault = { $kind ->
    [will-not-apply] { $part } schließt nicht
    [will-not-release] { $part } öffnet nicht
    [slips] { $part } rutscht
    [does-not-hold] { $part } sperrt nicht
    [stays-locked] { $part } bleibt gesperrt
   *[broken-spline] Keilverzahnung gebrochen: { $part }
}
page-faults-two = { $first }, und { $second }
page-faults-changed = { $faults }. { $count ->
    [one] Ein Gang ist nicht so, wie er sein soll.
   *[other] { $count } Gänge sind nicht so, wie sie sein sollen.
}
page-faults-stage = Die Zeichnungen und die anderen Tafeln zeigen weiter das Getriebe, an dem nichts gebrochen ist.
page-faults-healthy-head = Ohne Fehler
page-faults-becomes-head = Wird zu
page-faults-all-released = Alles offen
page-faults-healthy = { $does ->
    [neutral] neutral
    [output-held] Abtrieb fest
    [tied-up] verspannt
   *[undecided] nicht entschieden
}
page-faults-healthy-no-braking = { $ratio }, ohne Motorbrems{ "­" }wirkung
page-faults-becomes = { $outcome ->
    [right] wie es soll
    [no-engine-braking] treibt, aber ohne Motorbremswirkung
    [engine-braking] treibt, und mit Motorbremswirkung
    [lost] kein Kraftschluss: Der Abtrieb ist frei
    [slips] rutscht: Der Antrieb dreht hoch
    [output-held] der Abtrieb ist fest
    [ties-up] verspannt
   *[undecided] nicht entschieden: Freiläufe könnten sich auf mehr als eine Art einstellen
}
page-faults-drives = treibt mit { $ratio }
page-faults-drives-as = treibt mit { $ratio }, wie { $range } soll
page-faults-seen-head = Beobachtet
page-faults-seen-in = Beobachtet in { $range }
page-faults-untried = nicht probiert
page-faults-seen = { $seen ->
    [right] wie es soll
    [lost] kein Kraftschluss
    [slips] rutscht oder dreht hoch
    [ties-up] verspannt, oder Abtrieb fest
    [drives] andere Übersetzung
    [forward] treibt vorwärts
    [backward] treibt rückwärts
    [no-engine-braking] keine Motorbremswirkung
   *[engine-braking] Motorbremswirkung
}
page-faults-seen-ratio = Übersetzung { $ratio }
page-faults-clear = Beobachtungen löschen
page-faults-begin = Angeben, was in den probierten Gängen beobachtet wurde; welche Fehler das erklären, steht dann hier.
page-faults-nothing-wrong = Noch ist nichts Falsches beobachtet, also gibt es nichts zu erklären.
page-faults-progress = Wie viele einzelne und doppelte Fehler durchprobiert sind
page-faults-found-none = Kein einzelner und kein doppelter Fehler erklärt alles.
page-faults-found-single = { $count ->
    [0] Kein einzelner Fehler erklärt alles.
    [one] Ein einzelner Fehler erklärt alles.
   *[other] { $count } einzelne Fehler erklären alles, jeder für sich.
}
page-faults-found-both = { $count ->
    [0] Keine zwei Fehler tun es nur zusammen.
    [one] Ein Paar von Fehlern tut es nur zusammen.
   *[other] { $count } Paare von Fehlern tun es nur zusammen.
}
page-faults-single = Ein Fehler
page-faults-both = Zwei Fehler zusammen
page-faults-beside = { $count ->
    [one] Ein Paar aus einem davon und einem weiteren Fehler, der sich nicht zeigt
   *[other] { $count } Paare aus einem davon und einem weiteren Fehler, der sich nicht zeigt
}
page-faults-more = { $count ->
    [one] Noch eins
   *[other] Noch { $count }
}
page-faults-most = { $count ->
    [one] Eins mehr ist nicht aufgeführt.
   *[other] { $count } weitere sind nicht aufgeführt.
}
page-faults-alike = { $count }, die kein Gang unterscheidet:
page-faults-next = Als Nächstes { $range } probieren: Das lässt von { $of } Erklärungen im Mittel { $left } übrig, höchstens { $most }.
page-faults-try = { $range } einlegen
page-faults-no-next = Kein übriger Gang unterscheidet diese.
page-faults-model = Höchstens zwei Teile sind zugleich gebrochen, alles andere ist ideal. Was rutscht, überträgt etwas Moment, während seine Seiten verschieden schnell drehen; es zeigt sich, wo es welches übertragen muss. Ein Glied, dessen Keilverzahnung gebrochen ist, dreht frei auf seiner Welle.
page-faults-caution = Zum Lernen. Ein wirkliches Getriebe kann sich schützen, Gänge auslassen oder einen Fehler hinter einem anderen verbergen, und seine Steuerung gehört nicht dazu. Für Arbeiten am Fahrzeug gelten die Unterlagen des Herstellers.

## The page: a shift in time

page-panel-timed = Schaltung im Zeitverlauf
page-drawing-timed = Die Schaltung von { $from } nach { $to } über der Zeit; die Zahlen darunter sagen dasselbe
page-timed-note = Die Enden einer Rampe ziehen, um sie früher oder später anzusteuern. Zu früh geöffnet, dreht der Antrieb hoch; zu früh geschlossen, arbeiten Kupplungen gegeneinander.
page-timed-from = Von
page-timed-to = Nach
page-timed-take = was jetzt geschlossen ist
page-timed-taken = { $elements }, wie es geschlossen war
page-timed-input-speed = Antrieb am Anfang
page-timed-input-torque = Moment am Antrieb
page-timed-output-torque = Moment von außen am Abtrieb
page-timed-until = Gezeigte Zeit
page-timed-cut = Motormoment zurücknehmen
page-timed-depth = Um
page-timed-no-number = es steht keine Zahl da
page-timed-write-number = eine hineinschreiben
page-timed-wrong-depth = der Anteil ist eine Zahl von 1 bis 100, in %
page-timed-seconds = { $time } s
page-timed-second = s
page-timed-apply-begins = { $element }: Füllen beginnt
page-timed-apply-ends = { $element }: ganz geschlossen
page-timed-release-begins = { $element }: Öffnen beginnt
page-timed-release-ends = { $element }: ganz geöffnet
page-timed-cut-begins = Motormoment: zurückgenommen
page-timed-cut-ends = Motormoment: wieder da
page-timed-time = Abgelesene Zeit
page-timed-reading = { $time }: Antrieb { $input }, Abtrieb { $output }, { $torque } am Abtrieb, { $power } zu Wärme
page-timed-reading-phase = { $time }, { $phase }: Antrieb { $input }, Abtrieb { $output }, { $torque } am Abtrieb, { $power } zu Wärme
page-timed-phase = { $phase ->
    [before] vor der Schaltung
    [fill] Füllen
    [torque] Momentphase
    [inertia] Trägheitsphase
   *[after] nach der Schaltung
}
page-timed-phase-at = { $phase } { $begin } bis { $end }
page-timed-on-stage = In beiden Bildern abspielen
page-timed-keep = Zum Vergleich merken
page-timed-drop-kept = Gemerktes vergessen
page-timed-undo = Letzte Änderung zurücknehmen
page-timed-hottest = am meisten Wärme in { $element }: { $heat }
page-timed-most = am meisten
page-timed-usual = Von vorn
page-timed-all = Drehzahlen aller Glieder
page-timed-bar = Die Schaltung in beiden Bildern
page-timed-play = Langsam abspielen
page-timed-pause = Anhalten
page-timed-back = Zurück zum Bild
page-timed-now = Beide Bilder zeigen { $shift } bei { $time }
page-timed-now-phase = Beide Bilder zeigen { $shift } bei { $time }, { $phase }
page-timed-refused = { $why ->
    [tied-up] Was vorher geschlossen ist, verspannt das Getriebe oder hält den Abtrieb fest: Es bewegt sich nichts, das zu schalten wäre. Eine andere Kombination wählen, aus der geschaltet wird.
    [unsettled] Freiläufe könnten sich vorher auf mehrere Arten einstellen oder auf keine. Eine andere Kombination wählen, aus der geschaltet wird.
   *[undecided] Trägheiten oder Momente sind zu verschieden, um zu sagen, was als Nächstes geschieht. In der Datei Werte wählen, die näher beieinander liegen.
}
page-timed-clean = Weder Hochdrehen noch Verspannung.
page-timed-slight = Kaum Hochdrehen oder Verspannung: weniger als 1 % der Drehzahl und 5 % des Moments am Antrieb.
page-timed-flares = Hochdrehen: Der Antrieb dreht schneller, als beide Gänge es verlangen. Später öffnen oder früher schließen.
page-timed-binds = { $count ->
    [one] Verspannung: { $elements } trägt gegen das Moment im eigenen Gang. Früher öffnen oder später schließen.
   *[other] Verspannung: { $elements } tragen gegen die Momente in ihren Gängen. Früher öffnen oder später schließen.
}
page-timed-unsettled = In der gezeigten Zeit hält noch nicht alles, was halten soll. Mehr Zeit zeigen oder prüfen, ob es so viel tragen kann.
page-timed-figures = Was die Schaltung kostet
page-timed-both = Bei beidem tauscht eine verschobene Rampe nur das eine gegen das andere: andere Rampenlängen versuchen, oder Motordrehmoment zurücknehmen.
page-timed-figure = Größe
page-timed-this = Diese Schaltung
page-timed-kept-head = Gemerkt
page-timed-with-unit = { $figure } ({ $unit })
page-timed-duration = Dauer, von der ersten Ansteuerung, bis alles hält
page-timed-flare = Hochdrehen, höchstens
page-timed-bind = Verspannung, höchstes Moment
page-timed-drop = Einbruch des Abtriebsmoments unter beide Gänge
page-timed-jerk = Größter Ruck am Abtrieb, im Mittel über 20 ms
page-timed-jerk-unit = rad/s³
page-timed-heat = { $element }: Wärme
page-timed-peak = { $element }: höchste Leistung
page-timed-slips = { $element }: rutscht
page-timed-input = Am Antrieb zugeführte Energie
page-timed-output = Am Abtrieb entnommene Energie
page-timed-stored = In drehenden Massen gespeicherte Energie
page-timed-heats = Zu Wärme gewordene Energie
page-timed-map = Früher oder später
page-timed-map-note = Jede Marke ist diese Schaltung mit anderen Zeiten; je größer, desto mehr Wärme. Ein Druck darauf steuert sie so an. Wo eine lange dauert, werden weniger versucht.
page-timed-map-begin = Tausend Zeitwahlen durchrechnen
page-timed-map-keys = Zeiten; Pfeile wählen, die Eingabetaste steuert an
page-drawing-timings = Was herauskommt, wenn früher oder später geöffnet und geschlossen wird; die Zeile darunter sagt es von einer Wahl
page-timed-map-at = Öffnen bei { $release }, Füllen bei { $apply }: Hochdrehen { $flare }, Verspannung { $bind }, Wärme { $heat }
page-timed-map-refused = Öffnen bei { $release }, Füllen bei { $apply }: nicht entschieden
page-timed-joule = { $heat } J
page-timed-known = Was vom Getriebe bekannt und was angenommen ist
page-timed-known-note = Was im Feld „dynamics“ einer Szenariodatei fehlt, ist angenommen. Was hier eingetragen wird, steht dann dort, und lässt sich zurücknehmen.
page-timed-value = Wert
page-timed-source = Herkunft
page-timed-assumed = angenommen
page-timed-from-file = aus der Datei
page-timed-engine-inertia = Trägheit des Motors
page-timed-load-inertia = Trägheit dessen, was der Abtrieb treibt
page-timed-shaft-inertia = Trägheit: { $shaft }
page-timed-fill-time = Füllzeit von { $element }
page-timed-full-torque = Moment von { $element } bei voller Ansteuerung
page-timed-caution = Zum Lernen und für frühe Entwürfe: Die Reibung ist ideal, Glieder sind starr und verlustfrei, die Momente an Antrieb und Abtrieb bleiben, wie sie sind, und vieles ist angenommen. Was eine Kupplung aushält und wie ein wirkliches Getriebe schalten soll, entscheiden die Angaben des Herstellers und Fachleute.

## The page: sources and outputs

page-panel-sources = Antriebe und Abtriebe
page-drawing-sources-levers = Hebel von { $train }, deren Knoten sich von Hand drehen lassen
page-sources-grips = Glieder, die sich drehen lassen: nach oben ist vorwärts
page-sources-note = Einen Knoten nach oben oder unten ziehen oder mit Pfeiltasten verstellen. Was gehalten wird, behält seine Drehzahl, alles andere folgt entlang der Hebel. Die Räder sind hier ideal, ohne Verluste und ohne Trägheit.
page-sources-bar = Was die Zeichnungen von Hand zeigen
page-sources-shown = Von Hand: { $given }
page-sources-back = Zurück zum Antrieb allein
page-sources-to-panel = Zu den Zahlen
page-sources-on-shaft = an { $shaft }
page-sources-both-names = { $label } ({ $shaft })
page-sources-all-kept = Es werden so viele Drehzahlen gehalten, dass nichts mehr zu drehen ist: { $kept }. Eine davon nicht mehr halten.
page-sources-wrong = { $name }, { $what }: Gebraucht wird eine Zahl von −{ $to } bis { $to }. Bis dahin gilt die letzte.
page-sources-limits-title = Grenzen ändern
page-sources-limits-of = Grenzen: { $name }
page-sources-most-of = { $limit ->
    [speed] Höchste Drehzahl
    [torque] Größtes Drehmoment
    [power] Größte Leistung
   *[efficiency] Wirkungsgrad
  }
page-stated-assume = annehmen
page-stated-assume-this = Wieder annehmen: { $name }
page-stated-none = ohne Grenze
page-sources-caution = Grenzen und Wirkungsgrade stammen aus der Datei oder sind angenommen; wirkliche hängen von Temperatur, Dauer und Spannung ab. Ob eine Maschine in einem Punkt laufen darf, entscheiden die Angaben des Herstellers und Fachleute.
page-sources-freedom = { $count ->
    [0] Nichts kann sich drehen: Was geschlossen ist, hält alles fest.
    [one] Eine Drehzahl bestimmt alle anderen. Vorgegeben: { $given }.
   *[other] { $count } Drehzahlen bestimmen alle anderen. Vorgegeben: { $given }.
  }
page-sources-decided = { $name } ist bestimmt durch { $by }. Um es zu drehen, eines davon nicht mehr halten.
page-sources-held = { $name } steht fest und lässt sich nicht drehen.
page-sources-release = Für mehr Auswahl oben etwas davon lösen: { $elements }.
page-sources-numbers = Zahlen zu diesem Bild
page-sources-least = Kleinstes Drehmoment
page-sources-most = Größtes Drehmoment
page-sources-keep = Diese Drehzahl halten
page-sources-speed = Drehzahl
page-sources-torque = Drehmoment
page-sources-power = Leistung
page-sources-delivers = Gibt ab
page-sources-speed-of = Drehzahl: { $name }
page-sources-torque-of = Drehmoment: { $name }
page-sources-kind = { $kind ->
    [engine] Verbrennungsmotor
    [motor] E-Maschine
    [output] Abtrieb
   *[further] weiterer Abtrieb
  }
page-sources-does = { $does ->
    [feeds] speist { $power } ein
    [fed] nimmt { $power } auf
    [still] keine Leistung: steht still
   *[idle] trägt kein Drehmoment
  }
page-sources-limit = { $limit ->
    [speed] Drehzahl
    [torque] Drehmoment
    [power] Leistung
   *[efficiency] Wirkungsgrad
  }
page-sources-beyond = Über seinen Grenzen: { $limits }
page-sources-limits = Höchstens { $limits }.
page-sources-efficiency = Wirkungsgrad { $part }
page-sources-assumed = Angenommen: { $what }.
page-sources-balance = Ohne Batterie: Die E-Maschinen gleichen sich aus
page-sources-electric = { $way ->
    [takes] Die E-Maschinen nehmen { $power } aus einer Batterie.
    [gives] Die E-Maschinen geben { $power } an eine Batterie ab.
   *[none] Die elektrischen Leistungen der E-Maschinen heben sich auf.
  }
page-sources-members = Drehzahlen aller Glieder
page-sources-member = Glied
page-sources-by-speeds = Aus den vorgegebenen Drehzahlen
page-sources-is-kept = vorgegeben und gehalten
page-sources-is-given = vorgegeben
page-sources-is-held = steht fest
page-sources-is-balanced = wie die E-Maschinen sich ausgleichen
page-sources-torques = Drehmomente und Leistungen
page-sources-at = An
page-sources-by-torques = Aus den vorgegebenen Drehmomenten
page-sources-no-torque = keines
page-sources-undecided = unbestimmt: Es ist mehr geschlossen als nötig
page-sources-standstills = Wo etwas stillsteht
page-sources-ratio = Abtriebs- / Antriebsdrehzahl
page-sources-mechanical = keine Leistung hindurch: Alle geht durch die Räder
page-sources-region = Was der Abtrieb kann
page-sources-across = Abtriebsdrehzahl, { $unit }
page-sources-up = Abtriebsdrehmoment, { $unit }
page-sources-within = Innerhalb aller Grenzen
page-sources-now = Jetzt
page-sources-region-note = Die anderen vorgegebenen Drehzahlen bleiben: { $given }. Berechnet bei { $count } Drehzahlen, dazwischen gerade gezeichnet.
page-sources-no-region = { $why ->
    [held] Der Abtrieb steht fest.
    [free] Die vorgegebenen Drehzahlen lassen { $name } frei.
    [too-fast] Bei den vorgegebenen Drehzahlen ist { $name } über seiner höchsten Drehzahl, was auch der Abtrieb tut.
    [empty] Bei keiner Drehzahl des Abtriebs bleiben alle Antriebe innerhalb ihrer Drehzahlen.
   *[unlimited] Die Antriebe begrenzen das Drehmoment an einem Abtrieb nicht, solange ein anderer beliebig viel aufnehmen darf.
  }
page-sources-shares = Wohin die Leistung des Antriebs geht
page-sources-share = Leistung / Antriebsleistung
page-sources-out-of-in = Abtrieb / Antrieb
page-sources-rests = { $name } steht
page-sources-no-shares = { $why ->
    [freedom] Dafür müssen Antrieb und Abtrieb mit zwei Freiheitsgraden alle Drehzahlen bestimmen.
    [torques] Dafür dürfen höchstens zwei E-Maschinen teilen, was offen bleibt.
   *[idle] Der Antrieb trägt kein Drehmoment.
  }
page-sources-shares-note = { $balanced ->
    [true] Über null, was einspeist, unter null, was aufnimmt. Die E-Maschinen gleichen sich mit ihren Wirkungsgraden aus.
   *[false] Über null, was einspeist, unter null, was aufnimmt, bei gleicher Leistung des Antriebs.
  }

## The page: shifts

page-panel-shifts = Schaltungen
page-drawing-shifts = Schaltungen von { $train }: Kombinationen mit Kraftschluss über ihrer Übersetzung, und die einfachen Wechsel dazwischen; die Tabellen sagen dasselbe
page-shifts-nodes = Kombinationen mit Kraftschluss, nach ihrer Übersetzung
page-shifts-note = Bei einem einfachen Wechsel wird eine Kupplung oder Bremse geöffnet, während eine geschlossen wird; oder es wechselt nur eine, wo ein Freilauf das Übrige tut. Ein Druck auf einen Gang oder Kreis legt ihn ein.
page-shifts-count = { $count ->
    [one] Eine Kombination hat Kraftschluss und nichts mehr geschlossen als nötig.
   *[other] { $count } Kombinationen haben Kraftschluss und nichts mehr geschlossen als nötig.
}
page-shifts-some = Gezeigt sind die Gänge, was ein einfacher Wechsel aus ihnen macht, und die Kette.
page-shifts-all = Alle mit Kraftschluss zeigen
page-shifts-progress = Wie viele Kombinationen durchgesehen sind
page-shifts-node = { $elements }, Übersetzung { $ratio }
page-shifts-node-named = { $ranges }: { $elements }, Übersetzung { $ratio }
page-shifts-between = Schaltungen zwischen den Gängen
page-shifts-from = Von
page-shifts-from-all = jedem Gang
page-shifts-singles = { $singles } von { $all } Schaltungen zwischen Vorwärtsgängen sind einfache Wechsel; von denen in den nächsten Gang { $next } von { $neighbours }.
page-shifts-shift-head = Schaltung
page-shifts-pair = { $from } → { $to }
page-shifts-kind-head = Wechsel
page-shifts-kind = { $kind ->
    [same] keiner
    [alone] nur eines
    [single] einfach
    [double] doppelt
   *[more] mehr
}
page-shifts-released = Geöffnet
page-shifts-applied = Geschlossen
page-shifts-step = Stufensprung
page-shifts-no-ranges = Weniger als zwei benannte Gänge haben Kraftschluss.
page-shifts-chains = Gänge, die es haben könnte
page-shifts-chains-note = Die längsten Ketten von Vorwärtskombinationen, jede einen einfachen Wechsel von der nächsten: zuerst die meisten Gänge, dann die gleichmäßigsten Stufensprünge. Dass sie sich leicht schalten, ist nicht alles, was Gänge brauchen.
page-shifts-least = Kleinster Stufensprung
page-shifts-most = Größter Stufensprung
page-shifts-ranges = Höchstens so viele Gänge
page-shifts-chain-head = Kette
page-shifts-chain = { $count ->
    [one] Ein Gang
   *[other] { $count } Gänge
}
page-shifts-chain-named = { $chain }, alle benannt
page-shifts-ratios-head = Übersetzungen
page-shifts-steps-head = Stufensprünge
page-shifts-steps = { $least } bis { $most }
page-shifts-spread = Spreizung
page-shifts-no-chain = Keine zwei Vorwärtskombinationen liegen einen einfachen Wechsel und einen solchen Stufensprung auseinander.
page-shifts-too-many = Es sind zu viele Ketten, um alle zu vergleichen. Engere Grenzen für die Stufensprünge setzen oder weniger Gänge verlangen.
page-shifts-chosen = Die Kette, die im Bild markiert ist
page-shifts-elements-head = Schaltelemente
page-shifts-number-head = Gang
page-shifts-take = Diese zu den Gängen machen
page-shifts-take-note = Sie ersetzen alle benannten Vorwärtsgänge; „Rückgängig“ beim Ändern bringt diese zurück.

## The page: finding teeth

page-panel-find = Zähnezahlen suchen
page-find-note = Die gewünschten Übersetzungen eintragen; was leer bleibt, ist frei. Alle Zähnezahlen in den Grenzen werden durchsucht und die aufgeführt, die keine anderen übertreffen.
page-find-none = Kein Gang dieses Getriebes treibt an, sodass keine Übersetzung gewünscht werden kann.
page-panel-layouts = Bauformen finden
page-layouts-note = Sagt, wie Sätze verbunden und wo Kupplungen und Bremsen angeordnet werden können, damit die Gänge mit wirklichen Zähnen die gewünschten Übersetzungen haben. Alles in diesen Grenzen wird betrachtet.
page-layouts-sets = Sätze
page-layouts-set = Satz { $number }
page-layouts-no-set = keiner
page-layouts-applied = Geschlossen in jedem Gang
page-layouts-elements = Kupplungen und Bremsen, höchstens
page-layouts-clutches = Kupplungen, höchstens
page-layouts-brakes = Bremsen, höchstens
page-layouts-ranges = Vorwärtsgänge
page-layouts-ratios = Gewünschte Übersetzungen, die größte zuerst; ein leeres Feld nimmt jede
page-layouts-ratio-of = Gewünschte Übersetzung des Gangs { $range }
page-layouts-backward = Rückwärts
page-layouts-has-backward = mit einem Rückwärtsgang
page-layouts-range = Gang { $range }
page-layouts-backward-range = Rückwärtsgang
page-layouts-spread = Spreizung
page-layouts-step = Stufensprung von Gang zu Gang
page-layouts-shifts = Schaltungen
page-layouts-swaps = Nachbargänge unterscheiden sich durch einen einfachen Wechsel
page-layouts-direct = Direkter Gang
page-layouts-direct-is = { $direct ->
    [with] ein Gang muss direkt sein
    [without] kein Gang darf direkt sein
   *[other] gleichgültig
}
page-layouts-opened = Sie ist auf der Bühne, als eigenes Getriebe; das vorige steht weiter in der Liste der Getriebe.
page-layouts-order = Geordnet nach
page-layouts-order-is = { $order ->
    [error] Abweichung der Übersetzungen
    [elements] Zahl der Kupplungen und Bremsen
    [efficiency] Wirkungsgrad
    [size] größtem Hohlrad
    [spread] Spreizung
   *[other] Gleichmäßigkeit der Stufensprünge
}
page-layouts-begin = Bauformen suchen
page-layouts-more = Mehr zeigen
page-layouts-open = Auf der Bühne öffnen
page-layouts-chart = Gänge dieser Bauform
page-layouts-on = Geschlossen
page-layouts-ratio = Übersetzung
page-layouts-facts = Abweichung { $error } % · Spreizung { $spread } · Kupplungen: { $clutches }, Bremsen: { $brakes } · größtes Hohlrad { $size } · niedrigster Wirkungsgrad { $efficiency } %
page-layouts-unended = Dafür wurden nicht alle Zähne erprobt.
page-layouts-undecided = Ob seine Wellen ineinanderpassen, ist nicht entschieden.
page-layouts-covered = { $frames } Arten, die Sätze zu verbinden; { $layouts } Bauformen könnten solche Übersetzungen haben, davon sind { $useless } nicht baubar oder haben ein überzähliges Schaltelement, und für { $toothless } gibt es keine Zähne.
page-layouts-given-up = { $number } Arten, die Sätze zu verbinden, haben mehr Möglichkeiten, als erprobt wurden, und { $unended } Bauformen mehr Zähne: etwas kann fehlen. Verlangen Sie weniger Gänge, Schaltelemente oder Sätze oder eine kleinere Abweichung.
page-layouts-unreached = Gleich mit welchen Zähnen innerhalb der Grenzen, keine Art, die Sätze zu verbinden, ergibt eine solche Übersetzung für: { $ranges }.
page-layouts-goes = { $percent } % durchsucht, { $workers } zugleich; { $number } bisher gefunden.
page-layouts-ahead = Etwa { $frames } Arten, die Sätze zu verbinden; nach einer Stichprobe dauert es hier sehr grob { $time }.
page-layouts-long = Angehalten: Es gibt etwa { $frames } Arten, die Sätze zu verbinden. Nach einer Stichprobe dauert das hier sehr grob { $time }; es kann ein Mehrfaches oder ein Bruchteil davon sein. Weniger Sätze, Schaltelemente oder Gänge oder engere Übersetzungen verlangen, trotzdem weitermachen oder anderswo rechnen lassen.
page-layouts-stood = Eine Suche nach Bauformen war zu { $percent } % durch, als ihr Tab geschlossen wurde.
page-layouts-done = { $count ->
    [0] Alles betrachtet: keine Bauform hat solche Übersetzungen. Lassen Sie mehr Schaltelemente, eine größere Abweichung, andere Zähne oder andere Sätze zu.
    [one] Alles betrachtet: eine Bauform.
   *[other] Alles betrachtet: { $number } Bauformen.
}
page-layouts-full = Alles betrachtet: mehr Bauformen, als behalten werden; dies sind die besten { $number }.
page-find-asked = Was gewünscht wird
page-find-wanted = Gewünschte Übersetzungen
page-find-now = Jetzt
page-find-ratio = Gewünscht
page-find-ratio-of = Gewünschte Übersetzung von { $label }
page-find-tolerance = Darf abweichen um, in %
page-find-teeth = Zähne von Sonnen- und Hohlrädern
page-find-pinion-teeth = Zähne von Planetenrädern
page-find-least = { $what }, mindestens
page-find-most = { $what }, höchstens
page-find-to = bis
page-find-counts = Planetenräder je Satz
page-find-best = Was ein Getriebe besser macht
page-find-criterion = { $criterion ->
    [error] Übersetzungen wie gewünscht
    [steps] Gleichmäßige Stufensprünge
    [size] Kleines größtes Hohlrad
    [efficiency] Hoher Wirkungsgrad
   *[pinion-speed] Langsame Planetenräder
}
page-find-more = Regeln, Sätze und Grenzen
page-find-rules = Regeln, die gelten müssen
page-find-rule = { $rule ->
    [coaxial] Bolzen passen zu Sonnen- und Hohlrad
    [equal-spacing] Planetenräder in gleichen Winkeln
    [neighbours-clear] Planetenräder berühren sich nicht
   *[fewest-teeth] Kein Rad unter 12 Zähnen
}
page-find-keep = Zähne behält
page-find-ring = Hohlräder mit gleich vielen Zähnen
page-find-distance = Paare mit gleichem Achsabstand (ein Modul)
page-find-spread = Spreizung: erste Vorwärtsübersetzung durch die letzte
page-find-steps = Jeder Stufensprung durch den nächsten; 1 heißt gleiche
page-find-least-efficiency = Kleinster Wirkungsgrad, in %
page-find-efficient-ranges = Kleinster Wirkungsgrad gilt in
page-find-most-pinion = Schnellstes Planetenrad, mal Antriebsdrehzahl
page-find-most-open = Schnellstes offenes Schaltelement, mal Antriebsdrehzahl
page-find-begin = Zähnezahlen suchen
page-find-rest = Anhalten
page-find-go-on = Weiter
page-find-stop = Abbrechen
page-find-progress = Wie viel davon durchsucht ist
page-find-begins = Sucht …
page-find-rests = Angehalten.
page-find-stopped = Abgebrochen: Es wurde nicht alles durchsucht, und es kann Besseres geben als das Aufgeführte.
page-find-goes = { $percent } % durchsucht, { $workers } zugleich; { $number } bisher gefunden.
page-find-done = { $count ->
    [0] Alles durchsucht: In diesen Grenzen gibt es keine solchen Zähnezahlen.
    [one] Alles durchsucht: Ein Getriebe übertrifft alle anderen.
   *[other] Alles durchsucht: { $number } Getriebe, die kein anderes übertrifft.
}
page-find-full = Vorzeitig beendet, nicht alles durchgesehen: Zu viele Getriebe übertreffen einander in etwas (bisher { $number }). Weniger wählen, was ein Getriebe besser macht, oder kleinere Abweichungen zulassen.
page-find-ahead = { $candidates } Möglichkeiten; etwa { $boxes } Felder davon anzusehen: hier etwa { $time } oder weniger.
page-find-long = Angehalten: { $candidates } Möglichkeiten, etwa { $boxes } Felder davon anzusehen. Das dauert hier etwa { $time }, oder weniger, wo Funde andere ausschließen. Die Grenzen oder die Abweichung verengen, trotzdem weitermachen oder anderswo rechnen lassen.
page-find-elsewhere = Die Aufgabe sichern und auf der Befehlszeile rechnen lassen: ganz oder in Teilen auf beliebig vielen Rechnern, deren Dateien danach zusammengeführt werden. Ein unterbrochener Lauf geht weiter, wo er stand.
page-find-task = Aufgabe sichern
page-find-stood = Eine Suche für dieses Getriebe war zu { $percent } % durch, als ihr Tab geschlossen wurde.
page-find-resume = Damit weitermachen
page-find-plot = Das Gefundene nach zwei Maßen
page-find-plot-note = Ein Punkt zeigt, angetippt, sein Getriebe auf der Bühne; mit Tasten gehen Pfeile von Punkt zu Punkt, und die Eingabetaste wählt.
page-find-points = Punkte des Bildes
page-find-across = Nach rechts
page-find-up = Nach oben
page-find-covered = { $all } Möglichkeiten: { $outside } ausgeschlossen, da keine davon solche Übersetzungen hat, { $beaten }, da keine das Gefundene übertreffen kann, { $tried } einzeln geprüft.
page-find-found = Gefundene Zähnezahlen
page-find-teeth-head = Zähne
page-find-teeth-note = Zähnezahlen stehen von innen nach außen, Sonne/Planeten/Hohlrad; × sagt, wie viele Planetenräder.
page-find-column = { $criterion ->
    [error] Abweichung, %
    [steps] Ungleiche Stufen, %
    [size] Größtes Hohlrad
    [efficiency] Kleinstes η, %
    [pinion-speed] Schnellstes Planetenrad ×Antrieb
   *[open-speed] Schnellstes offenes ×Antrieb
}
page-find-rows = Aufgeführt sind die ersten { $most } von { $all }.
page-find-all = Alle Größen
page-find-wider = Noch einmal innerhalb von { $percent } % suchen
page-find-nearest = Erweitern, bis etwas gefunden wird
page-find-blocking = Sucht, welcher der Wünsche im Weg steht …
page-find-blocking-single = { $count ->
    [one] Ohne diesen Wunsch gäbe es welche: { $wishes }.
   *[other] Ohne einen dieser Wünsche, gleich welchen davon, gäbe es welche: { $wishes }.
}
page-find-blocking-together = { $count ->
    [one] Einen einzelnen Wunsch wegzulassen reicht nicht. Dieser ist nicht zu erfüllen, auch ohne die anderen: { $wishes }.
   *[other] Einen einzelnen Wunsch wegzulassen reicht nicht. Diese sind zusammen nicht zu erfüllen, auch ohne die anderen: { $wishes }.
}
page-find-wish = { $wish ->
    [efficiency] kleinster Wirkungsgrad
    [pinion_speed] schnellstes Planetenrad
    [open_speed] schnellstes offenes Schaltelement
    [spread] Spreizung
    [steps] Stufensprünge
    [step] Grenzen der Stufensprünge
    [direct] direkter Gang
   *[single_swaps] einfache Wechsel
}
page-find-pace = { $rate } Möglichkeiten je Sekunde; noch etwa { $time } oder weniger.
page-layouts-pace = { $rate } Arten, zu verbinden, je Sekunde; sehr grob noch { $time }.
page-find-wrong-tolerance = Wie weit Übersetzungen abweichen dürfen, ist eine Zahl von 0 bis { $most }, in %.
page-find-wrong-efficiency = Der kleinste Wirkungsgrad ist eine Zahl von 0 bis 100 in %: schreiben Sie eine, oder lassen Sie das Feld leer.
page-find-try = Eine Zeile oder einen Punkt antippen, um das Getriebe zur Probe auf der Bühne zu haben.
page-find-tried = Zur Probe auf der Bühne, neben dem, was vorher da war.
page-find-take = Behalten
page-find-back = Zurück zum Vorigen
page-find-before = { $train }, vorher
