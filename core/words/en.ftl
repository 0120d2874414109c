# All that a person reads, in the syntax of Project Fluent. core/src/base/catalogue.rs reads messages,
# variables, literals and selections by word, by number or by plural category; no line is continued
# outside of a selection.

## Numbers, names and lists

# Last words of labels that name a kind of thing. Such a label takes an article.
kinds = { " " }annulus axle axles band brake carrier carriers case clutch countershaft crank drum engine frame freewheel gear gears housing hub input layshaft motor output pair pinion pinions planet planets ring rings row set shaft sprocket sun suns turbine wheel wheels{ " " }
# A label of that kind; its first letter comes small. As it was written it is $name, its last word is
# $kind, and $case is what it does in its sentence: [subject], [object] or [dative].
noun = the { $label }
# With what a sentence may begin that is in a capital only there.
articles = { " " }the{ " " }
# What stands between whole and decimal figures.
decimal-sign = .
# Units of speed, and a thousand of the first.
unit-rev-min = rev/min
unit-rev-min-thousand = × 1000 rev/min
# What the housing is called where the scenario does not say.
housing = Housing
# What stands in a name that reads like a list. Among other names, it is parted from them clearly.
and-within = { " and " }
list = { $most }, { $last }
list-clear = { $most }; { $last }
list-and = { $most } and { $last }
list-and-clear = { $most }; and { $last }
list-or = { $most } or { $last }
list-or-clear = { $most }; or { $last }

## Gears and what is made of them

role-sun = sun
role-small-sun = small sun
role-large-sun = large sun
role-first-sun = first sun
role-second-sun = second sun
role-ring = ring
role-carrier = carrier
role-first-gear = first gear
role-second-gear = second gear
# The housing as the frame of a pair of gears on fixed axes.
role-frame = housing
pinion = pinion
pinion-inner = inner pinion
pinion-outer = outer pinion
pinion-short = short pinion
pinion-long = long pinion
# Both steps of a stepped pinion, and each by what it meshes with.
pinion-stepped = stepped pinion
pinion-on-sun = sun pinion
pinion-on-ring = ring pinion
pinion-on-first-sun = first pinion
pinion-on-second-sun = second pinion
kind-planetary = planetary set, one pinion row
kind-double-pinion = planetary set, two pinion rows
kind-stepped = planetary set, stepped pinions
kind-stepped-suns = planetary set, two suns on stepped pinions
kind-ravigneaux = Ravigneaux set, short and long pinions
kind-external-pair = external gear pair
kind-internal-pair = internal gear pair
# Two gears in mesh.
mesh-sun-inner = sun and inner pinion
mesh-inner-outer = inner and outer pinion
mesh-outer-ring = outer pinion and ring
mesh-pair = first and second gear
mesh-sun-pinion = sun and pinion
mesh-pinion-ring = pinion and ring
mesh-small-short = small sun and short pinion
mesh-short-long = short and long pinion
mesh-large-long = large sun and long pinion
mesh-long-ring = long pinion and ring
mesh-sun-step = sun and sun pinion
mesh-step-ring = ring pinion and ring
mesh-first-step = first sun and first pinion
mesh-second-step = second pinion and second sun

## What teeth do not satisfy

tooth-coaxial = { $sun } { $sun-teeth } + 2 × { $pinion } { $pinion-teeth } = { $wanted }, but the ring has { $ring }: the gears need profile shift to share one axis
# A sum or difference of teeth in letters: S + R.
tooth-spacing = { $sum } = { $teeth } is not a multiple of { $pinions }: { $pinions } pinions cannot be put in at equal angles
tooth-stepped-spacing = sun { $sun } × ring pinion { $q } + ring { $ring } × sun pinion { $p } = { $total } is not a multiple of { $step } ({ $pinions } pinions × { $common }, the greatest common divisor of their steps): stepped pinions cut alike cannot be put in at equal angles
tooth-suns-spacing = first sun { $first } × second pinion { $q } = { $left } and second sun { $second } × first pinion { $p } = { $right } do not differ by a multiple of { $step } ({ $pinions } pinions × { $common }, the greatest common divisor of their steps): stepped pinions cut alike cannot be put in at equal angles
tooth-suns-coaxial = first sun { $first } + first pinion { $p } = { $left }, but second sun { $second } + second pinion { $q } = { $right }: with one module for both steps the gears need profile shift to share one axis
tooth-stepped-coaxial = sun { $sun } + sun pinion { $p } = { $inside }, but ring { $ring } − ring pinion { $q } = { $outside }: with one module for both steps the gears need profile shift to share one axis
tooth-neighbours = { $pinions } pinions of { $teeth } teeth stand { $distance } modules apart and need more than { $needed }: neighbours touch
tooth-long-pinion = the large sun has { $large } teeth and needs more than { $needed } (small sun { $small } + 4): the long pinions touch the small sun
tooth-fewest = the { $gear } has { $teeth } teeth, fewer than the usual least of { $least }
tooth-inside = the first gear with { $first } teeth does not fit inside the internal one with { $second }
tooth-pins = centre distances { $first }, { $second } and { $between } modules make no triangle: { $pinions ->
    [inner] inner and outer
   *[short] short and long
} pinions cannot mesh
tooth-pairs = { $pinions ->
    [inner] inner pinions
    [outer] outer pinions
    [short] short pinions
    [long] long pinions
    [outer-inner] an outer pinion and the next inner one
   *[long-short] a long pinion and the next short one
} stand { $distance } modules apart and need more than { $needed }: they touch

## The state

state-driving = Drives
state-over-applied = Over-applied
state-neutral = Neutral
state-branched = No fixed ratio
state-output-held = Output held
state-tied-up = Tied up

# Page and drawings show these after the state; up to the comma stands the way alone.
answer-drives = { $way ->
    [opposite] backward
   *[same] forward
}, { $pace ->
    [faster] output faster than input
    [slower] output slower than input
   *[alike] { $way ->
        [opposite] output as fast as input
       *[same] direct drive
    }
}
answer-neutral = the output is free
answer-branched = several speeds decide
answer-output-held = the output stands still
answer-tied-up = the input cannot turn

## What is applied

none-applied = Every clutch and brake is released.
applied = { $all }.
does-hold = { $element } holds { $first }
does-lock = { $element } locks { $first } to { $second } by itself
does-drive = { $element } lets the input drive { $first }
does-join = { $element } joins { $first } to { $second }

## Why it drives so

joined = So the input is joined to the output directly.
as-one = { $elements } { $count ->
    [one] turns
   *[other] turn
} { $pair } alike, so { $what }.
as-one-alone = { $what }.
pair-alone = { $first } and { $second }
pair-same-set = { $first } and { $second } of { $set }
pair-apart = { $first } of { $set } and { $second } of { $other-set }
all-as-one = everything turns as one piece
sets-as-one = { $sets } { $count ->
    [one] turns
   *[other] turn
} as one piece
# Beside these there are $label, the set as it is called, and $begun, what is said of it with a capital.
in-set = { $set }: { $what }
# Who takes the reaction in a set, and what comes of it.
because = { $reaction }, so { $motion }.
by-itself = { $motion }.
reaction-fixed = the fixed { $member } takes the reaction
reaction-elements = { $elements } { $count ->
    [one] holds
   *[other] hold
} { $member } against the reaction
reaction-rest = { $member }, which stands still, takes the reaction
turns-same = { $pace ->
    [slower] { $driving } overruns { $driven }, which turns slower the same way
    [faster] { $driven } overruns { $driving }: it turns faster the same way
   *[alike] { $driving } takes { $driven } along as fast as itself
}
turns-opposite = the direction turns round here: { $driving } turns { $driven } the other way, { $pace ->
    [slower] slower
    [faster] faster
   *[alike] as fast
}
pair-turns = { $driving } turns { $driven } { $way ->
    [opposite] the other way
   *[same] the same way
}, { $pace ->
    [slower] slower
    [faster] faster
   *[alike] as fast
}
# Its article, and what comes between, may be chosen by what it does in its sentence, $case, and by $role.
member = the { $member }
adds = { $driving } together drive { $driven }, which { $place ->
    [between] turns at a speed between theirs
    [overruns] overruns them
    [slower] turns slower than they
    [beyond] turns the way of { $past }, but faster
   *[against] turns the other way
}
divides = { $driving } { $count ->
    [one] drives
   *[other] drive
} { $driven }
strut = { $set } passes on torque, but no power.
delivers = { $output } delivers, { $pace ->
    [faster] faster than
    [slower] slower than
   *[alike] as fast as
} the input and in the { $way ->
    [opposite] opposite
   *[same] same
} direction.

## What could be released

idle = More is applied than needed: { $count ->
    [one] { $elements }
   *[other] any one of { $elements }
} could be released and nothing would change.
only-for = { $element } is needed only { $what ->
    [braking] for engine braking
   *[coasting] when the load drives
}: while the input drives, { $count ->
    [0] nothing would change without it
   *[other] { $instead } would lock in its place
}.
keeps-locked = Without { $element }, { $lets-go } would no longer lock.
side-by-side = { $elements } lock side by side: equilibrium does not say who carries how much.

## Why it does not drive

neutral = Neutral: { $reasons }.
# Where there are further sources or outputs
branched = The input alone decides neither the output’s speed nor that of all other members: it takes as many speeds of sources and outputs as there are degrees of freedom.
input-alone = the input is connected to nothing
input-geared = what the input turns is connected to nothing else
output-alone = the output is connected to nothing
for-open = { $what }, because { $open } { $count ->
    [one] is open
   *[other] are open
}
no-reaction = nothing takes the reaction, so the output is free
would-drive = { $elements } would make it drive.
one-would-drive = One more, rightly chosen, would make it drive.
several-would-drive = It takes { $count } more clutches or brakes, rightly chosen, to make it drive.
no-element = There is no clutch or brake to make it drive.
none-would-drive = None of the other clutches and brakes can make it drive.
held-with = { $elements } with { $sets }
held = { $holders } { $count ->
    [one] holds
   *[other] hold
} the output still, however the input turns.
tied-by-sets = Tied up by { $sets } alone: the input cannot turn.
tied-by = Tied up: { $what }.
holds-alone = { $elements } alone holds the input
fight = { $elements } fight each other
so-tied = { $what }, so the input cannot turn
through = { $what } through { $sets }
would-turn = Were { $element } released, { $first } would turn { $way ->
    [opposite] backward
   *[same] forward
} { $pace ->
    [alike] as fast as the input
   *[other] at { $speed } times the input’s speed
}.
would-slip = Were { $element } released, { $first } and { $second } would turn at different speeds.
fights-all = There is more than one fight: release at least two.
fights-some = There is more than one fight: releasing { $freeing } ends them all, releasing { $others } does not.
fights-one = Releasing any one of them ends this fight.

## A walk through the power flow

# What is known of a set before, and what comes of it. $count counts the members that are decided.
walk-input = The input always turns { $members }.
# Of a train with several sources or outputs.
walk-alone = Of all outputs only { $output } carries torque here, and of all sources only the input: the others turn along or stand still.
walk-still = { $set } stands still as a whole: it passes on torque, but no power.
walk-decided = { $set }: { $count ->
    [0] the speeds of all its members are known already.
    [one] { $before ->
        [none] what the other sets do decides { $decided }.
        [one] with the speed of { $known } known, { $decided } has only one speed left.
       *[some] with the speeds of { $known } known, { $decided } has only one speed left.
    }
   *[other] { $before ->
        [none] all its members can only turn together: { $decided }.
        [one] with the speed of { $known } known, { $decided } have only one speed each left.
       *[some] with the speeds of { $known } known, { $decided } have only one speed each left.
    }
}
walk-together = { $sets } decide each other: { $count ->
    [2] neither can be told before the other.
   *[other] none of them can be told before the others.
}
walk-undetermined = In { $set } equilibrium does not say how much torque each member carries, since more is applied than needed.
walk-reaction = { $member } takes the reaction while it turns, { $alike ->
    [yes] as fast as the input
   *[no] at { $speed } times the input’s speed
}: it acts like a held member, but at another speed.
walk-share = { $member } { $percent } %
walk-shares = The power { $flow ->
    [enters] goes into { $set } by more than one way
   *[leaves] goes out of { $set } by more than one way
}: { $shares }.
walk-ratio = Stage ratio { $ratio }: from { $from } to { $to } times the input’s speed, and { $torque ->
    [same] the torque stays as large
   *[other] the torque becomes { $times } times as large
}.
walk-member-of = { $member } of { $set }
walk-goes-round = { $members } { $count ->
    [one] carries
   *[other] carry
} { $times } times the input’s power: part of the power goes round { $rolls ->
    [no] within what turns as one piece, where no gear rolls
   *[yes] inside the train
}.
walk-idle = { $sets } { $count ->
    [one] carries no torque here and takes
   *[other] carry no torque here and take
} no part in the power flow.
walk-output = { $output } turns { $way ->
    [backward] backward
   *[forward] forward
} { $torque ->
    [same] as fast as the input, with torque as large as the input’s
   *[other] at { $speed } times the input’s speed, with { $times } times the input’s torque
}: ratio { $ratio }.
walk-product = All power goes through one stage after the other, so the ratios multiply: { $product } = { $ratio }.
walk-turns-round = The direction turns round in { $sets }.
# Willis' equation in words: $sum is of messages walk-tie-share.
walk-tie = { $set } ties its speeds together: speed of the { $member } = { $sum }.
walk-tie-still = { $member } stands still and is left out.
walk-tie-share = { $times } × speed of the { $member }
walk-kept = { $elements } { $count ->
    [one] is
   *[other] are
} applied in { $range } as well and { $count ->
    [one] stays
   *[other] stay
} applied here: only { $rest } is left to apply for { $range }, so there is less to swap.
walk-part-drives = drives
walk-part-delivers = delivers
walk-part-held = held
walk-part-idle = no torque
walk-part-unknown = torque not determined
walk-part-reacts-drives = drives, reaction at another speed
walk-part-reacts-delivers = delivers, reaction at another speed

## From one range to another

shift-released = { $elements } { $count ->
    [one] is
   *[other] are
} released.
shift-applied = { $elements } { $count ->
    [one] is
   *[other] are
} applied.
shift-lets-go = { $elements } { $count ->
    [one] lets go by itself and overruns
   *[other] let go by themselves and overrun
}.
shift-unloaded = { $elements } { $count ->
    [one] has
   *[other] have
} nothing to hold any more.
shift-locks = { $elements } { $count ->
    [one] locks by itself
   *[other] lock by themselves
}.
shift-kept = { $elements } { $count ->
    [one] stays
   *[other] stay
} applied.
shift-swap = { $swap ->
    [nothing] Both apply the same: there is nothing to swap.
    [releases] { $one-way ->
        [helps] Nothing need be applied in its place: the one-way clutch holds by itself, so that nothing has to be timed.
       *[none] Nothing is applied in { $count ->
            [one] its
           *[other] their
        } place.
    }
    [applies] { $one-way ->
        [helps] Nothing need be released for it: the one-way clutch lets go as the load leaves it, so that nothing has to be timed.
       *[none] Nothing is released for { $count ->
            [one] it
           *[other] them
        }.
    }
    [single] It is a single swap: one goes and one comes.
   *[several] It is more than a single swap, so several must be timed together.
}
shift-speed = { $change ->
    [freed] { $shaft }, until now { $still ->
        [true] at rest
       *[other] at { $before }
    }
    [decided] { $shaft }, now { $still ->
        [true] at rest
       *[other] at { $after }
    }
    [stops] { $shaft } from { $before }
    [starts] { $shaft } to { $after }
   *[other] { $shaft } from { $before } to { $after }
}
shift-change = { $place ->
    [first] At the same input speed { $count ->
        [one] this
       *[other] these
    }
   *[next] { $count ->
        [one] This
       *[other] These
    }
} { $change ->
    [turns-round] { $count ->
        [one] turns
       *[other] turn
    } the other way
    [stops] { $count ->
        [one] comes
       *[other] come
    } to rest
    [starts] { $count ->
        [one] starts
       *[other] start
    } to turn
    [slower] { $count ->
        [one] slows
       *[other] slow
    } down
    [faster] { $count ->
        [one] speeds
       *[other] speed
    } up
    [freed] { $count ->
        [one] becomes
       *[other] become
    } free
   *[decided] { $count ->
        [one] is
       *[other] are
    } free no longer
}: { $shafts }.
shift-input = At the same output speed the input { $pace ->
    [slower] must slow down to { $times } times its speed
    [faster] must speed up to { $times } times its speed
    [against] would have to turn the other way, so the output must stand still for this shift
   *[alike] keeps its speed
}.
shift-coast = { $braking ->
    [comes] Engine braking comes with it: when the load drives, it turns the input at this ratio, too.
   *[goes] Engine braking goes with it: when the load drives, a one-way clutch lets go.
}
# What is between the ranges where something is late: $late is what is late to do, alone of several or not, $like is whose ratio it has then.
shift-late = If { $elements } { $late ->
    [come] { $count ->
        [one] comes
       *[other] come
    } late, { $held ->
        [none] nothing is applied for a while
        [one] only { $holds } stays applied for a while
       *[some] only { $holds } stay applied for a while
    }
   *[go] { $count ->
        [one] goes
       *[other] go
    } late, { $holds } { $held ->
        [one] is still applied for a while
       *[some] are applied together for a while
    }
}: { $state ->
    [driving] it drives at { $like ->
        [before] the old ratio, { $ratio }, until then
        [after] the new ratio, { $ratio }, already
       *[neither] a ratio of { $ratio } in between
    }
    [over-applied] it drives at { $like ->
        [before] the old ratio, { $ratio }, until then
        [after] the new ratio, { $ratio }, already
       *[neither] a ratio of { $ratio } in between
    }
    [neutral] the train is neutral, and under power the input runs up
    [branched] there is no fixed ratio, and several speeds decide
    [output-held] the output is held, and is braked
    [tied-up] the train is tied up, and everything is braked until one of them slips
    [input-held] the train is tied up, and the input is braked until one of them slips
   *[unsettled] equilibrium does not say how the one-way clutches settle
}.
shift-late-alone = If only { $elements } { $late ->
    [come] comes late, { $held ->
        [none] nothing is applied for a while
        [one] only { $holds } stays applied for a while
       *[some] only { $holds } stay applied for a while
    }
   *[go] goes late, { $holds } { $held ->
        [one] is still applied for a while
       *[some] are applied together for a while
    }
}: { $state ->
    [driving] it drives at { $like ->
        [before] the old ratio, { $ratio }, until then
        [after] the new ratio, { $ratio }, already
       *[neither] a ratio of { $ratio } in between
    }
    [over-applied] it drives at { $like ->
        [before] the old ratio, { $ratio }, until then
        [after] the new ratio, { $ratio }, already
       *[neither] a ratio of { $ratio } in between
    }
    [neutral] the train is neutral, and under power the input runs up
    [branched] there is no fixed ratio, and several speeds decide
    [output-held] the output is held, and is braked
    [tied-up] the train is tied up, and everything is braked until one of them slips
    [input-held] the train is tied up, and the input is braked until one of them slips
   *[unsettled] equilibrium does not say how the one-way clutches settle
}.
# The same change in a table.
shift-words = { $change ->
    [same] same
    [faster] faster
    [slower] slower
    [turns-round] turns round
    [stops] stops
    [starts] starts
    [freed] becomes free
    [decided] free no longer
   *[free] free
}

## What is free

free = { $shafts } { $count ->
    [one] is free: nothing decides its speed
   *[other] are free: nothing decides their speeds
}.

## Where engine and load agree, or why nowhere

operating-idles = The engine idles: its idle control gives what the load asks for.
operating-steady = Engine and load agree at one speed, and come back to it when pushed.
operating-drifts = Engine and load agree at one speed, but drift away from it when pushed: it is unstable.
operating-several = Engine and load agree at several speeds: they come back only to the stable ones.
operating-several-unstable = Engine and load agree at several speeds, all of them unstable.
operating-load-too-great = The load is too great: it asks for more torque than arrives at the output, and from standstill the output cannot start.
operating-below-table = The load is too great: it would pull the engine below its lowest speed.
operating-past-table = The load is too small: the engine would run past its highest speed. Shift up or release the pedal.
operating-coasting = The load drives, and the turbine would run ahead of the pump: a converter's table does not say what happens there. Lock the converter to see engine braking.
operating-overruns = The load drives, and this combination does not pass that on to the engine: there is no engine braking.
operating-no-drive = Only a train that drives has an operating point.
operating-self-locking = The train locks itself: its losses take all of the power.
operating-ambiguous = Losses leave open which way the power goes, so there is no one answer.
operating-indeterminate = More is applied than needed, so the losses, and with them the output torque, are not determined.
operating-too-many = Too many gear sets roll at once to try every way the power may go through them, so the losses, and with them the output torque, are not known.

## Why a train cannot be driven on the road

traction-no-drive = It does not drive.
traction-no-range = No range drives forward, so there is no run from rest.
traction-no-start = At full pedal the engine does not settle while the vehicle stands: the converter takes more than it gives, or too little to hold it back. So there is no run from rest.
traction-load-too-great = The road asks for more than the first range pulls with: the vehicle does not move from rest.
traction-lacks-engine = This scenario does not say what drives the input and what holds the output back.
traction-add-engine = Where the train is edited, put an engine before it and a load behind it.
traction-lacks-ranges = This scenario names no range.
traction-add-ranges = Apply what a range needs, and add it where the train is edited.

## What is wrong with a file, a link or an option, and what would mend it

problem = { $place }: { $what }; { $fix }
# Places. What stands in a file is named by its path, such as couplings[1].ring.teeth.
place-file = file
place-line = line { $line }, column { $column }
# It begins with the path of the set: the line of a problem in a text is found by it.
place-member = { $coupling }, { $member }
place-applied = applied elements
place-pedal = pedal
place-shift-speed = engine speed to shift at, rev/min
place-road-speed = road speed, m/s
place-grade = grade
place-mesh = mesh efficiency
place-drag = drag of open elements
place-drawing = drawing
place-sandbox = sandbox

# What was found, where that is not quoted as it stands.
value-list = a list
value-object = an object

problem-unknown-field = unknown field `{ $name }`
fix-use-only = use only { $names }
problem-missing-field = missing field `{ $name }`
fix-add = add it
problem-not-object = not an object: { $found }
fix-write-object = write it in { "{ }" }
problem-not-list = not a list: { $found }
fix-write-list = write it in [ ]
problem-not-text = not a text: { $found }
fix-write-quotes = write it in quotes
problem-not-number = not a number: { $found }
fix-write-number = write a number
problem-not-whole = not a whole number: { $found }
problem-not-whole-from-0 = not a whole number from 0 up: { $found }
fix-write-digits = write digits only
problem-not-bool = neither true nor false: { $found }
fix-write-bool = write one of them
problem-row-length = not a row of { $wanted }, but of { $found }
fix-row-length = write { $wanted } values in [ ], with commas between
problem-unknown-word = not a word known here: { $found }
fix-use-one-of = use one of { $names }
problem-unknown-kind = { $found } is not a kind of { $what ->
    [coupling] coupling
    [edit] edit
    [task] task
   *[element] shift element
}
problem-kind-not-text = { $found } is not text
problem-missing = missing
fix-write-allowed = write a number that is allowed there
problem-teeth = { $found } teeth is outside the { $least } to { $most } a gear may have
problem-pinions = { $found } pinions is outside the { $least } to { $most } a row may have

problem-twice = the key "{ $found }" stands here twice
fix-leave-one-out = leave one of them out
problem-too-deep = more than { $found } lists and objects within each other
fix-flatter = write it flatter: no field needs so many
problem-ends = the file ends too early
fix-copied-whole = check that it was copied whole
problem-not-json = not JSON: "{ $found }"
fix-mend-json = mend the JSON at that place
problem-number = the number { $found } is too large, or not written as JSON does
fix-digits-point = write digits, with at most one point
problem-too-many-bytes = { $found } bytes is more than a scenario may have
fix-fewer-bytes = keep it under { $most } bytes
problem-sheet = an exercise sheet is no train
fix-sheet = open it with Open an exercise sheet… in the panel Exercises
problem-format = { $found } is not a format this version reads
fix-format = write "format": { $format }
problem-too-many-entries = { $found } entries are more than the { $most } allowed
fix-keep-at-most = keep at most { $most }

problem-outside = outside what is allowed: { $found }
problem-not-allowed = { $found } is not allowed there
problem-out-of-range = { $found } is out of range
fix-range = use { $least } to { $most }
problem-not-below-outer = not below the outer radius: { $found }
fix-less = use less than { $most }
problem-entries = { $count ->
    [one] { $count } entry
   *[other] { $count } entries
}
problem-points = { $count ->
    [one] { $count } point
   *[other] { $count } points
}
fix-have = have { $least } to { $most }
fix-name-at-most = name at most { $most }

problem-unknown-id = no { $what ->
    [shaft] shaft
    [coupling] set
    [range] range
   *[element] element
} has the id "{ $id }"
fix-has-none = the scenario has no { $what ->
    [shaft] shaft
    [coupling] set
    [range] range
   *[element] element
}
problem-input-as-well = "{ $id }" is the input as well
fix-another-shaft = name another shaft
problem-one-way = "{ $id }" is a one-way clutch
fix-one-way = leave it out: it locks by itself
problem-housing-id = "{ $id }" always means the housing
fix-another-id = give the shaft another id
problem-taken-id = the id "{ $id }" is taken by { $first }
fix-different-id = give each a different id
problem-id = "{ $id }" cannot be an id
fix-id = use 1 to { $most } letters, digits, - or _
problem-characters = "{ $text }" has { $characters ->
    [one] 1 character
   *[other] { $characters } characters
}, or some that do not print
fix-characters = use { $least } to { $most } printing characters
problem-steers = has U+{ $code }, which steers text and is not seen
fix-leave-out = leave it out
problem-unseen = has no character that is seen
fix-letter = write a letter or a digit at least
problem-housing = the housing does not turn
fix-shaft = name a shaft
problem-member-twice = "{ $id }" is another member of "{ $coupling }" already
fix-member-twice = put each member on its own shaft
problem-same-ends = both ends are "{ $id }"
fix-two-shafts = name two different shafts
problem-against-itself = "{ $id }" cannot lock against itself
fix-against-itself = name another shaft, or housing
problem-named-twice = "{ $id }" is named twice
fix-named-twice = name each element once

problem-missing-part = there is no { $what ->
    [engine] engine
   *[load] load
}, and an operating point takes one
fix-missing-part = add it, or leave out engine, converter and load
problem-other-speeds = it does not begin and end at the speeds of engine.full
fix-other-speeds = use the same first speed and the same last speed in both
problem-not-below-full = at { $speed } rev/min it is not below engine.full
fix-not-below-full = write a torque that is smaller than at full pedal
problem-speed-ratio = { $found } is not a speed ratio from 0 to below 1
fix-speed-ratio = leave out what is not in that range
problem-no-stall = it does not begin at stall
fix-no-stall = begin with speed ratio 0
problem-more-power = from there on more power would come out than goes in
fix-more-power = make torque ratio times speed ratio at most 1, between points as well
problem-not-rising = { $later } does not come after { $earlier }
fix-rising = list the points with rising first numbers

problem-efficiency = { $found } cannot be an efficiency
fix-efficiency = use more than 0 and at most 1
problem-drag = { $found } cannot be a drag
fix-drag = use 0 or more

problem-drawing = "{ $drawing }" is not a drawing
fix-drawing = use section, lever, flow, operating or end: and the id of a coupling
problem-nothing-open = no scenario is open
fix-nothing-open = open one first
problem-canvas = the canvas has no 2d context

## Changing a train

# What is new is called.
edit-blank = New train
layout-name = Found layout
edit-input = Input
edit-output = Output
edit-set = Set { $number }
edit-member = { $role } { $number }
edit-joined = { $first } + { $second }
edit-brake = Brake { $id }
edit-clutch = Clutch { $id }
edit-one-way = One-way { $id }
edit-range = Range { $number }
edit-engine = Engine
edit-converter = Torque converter
edit-load = Load

problem-no-gear = the set has no gear of number { $found }
problem-no-member = the set has no member of number { $found }
fix-number = use 0 to { $most }
problem-no-pinions = a pair of gears has no pinions
fix-set-with-pinions = choose a set with pinions
problem-no-pair = only a pair of gears can mesh inside or outside
fix-pair = choose a pair of gears
problem-frame = the frame of a pair is the housing
fix-frame = choose one of its gears
problem-no-one-way = only a one-way clutch locks one way
fix-one-way-only = choose a one-way clutch
problem-no-friction = a one-way clutch has no friction surfaces
fix-no-friction = choose a brake or a clutch
problem-connect-itself = { $shaft } is one shaft already
problem-connect-ends = { $first } and { $second } are input and output, which cannot be one shaft
fix-connect-ends = join them by a clutch, or choose another input or output first
problem-connect-set = { $first } and { $second } are both members of { $what }, which would be locked for good
fix-connect-set = put a clutch between them
problem-connect-element = { $what } stands between { $first } and { $second }
problem-no-two-suns = it has neither two suns nor steps and looks the same turned round
fix-two-suns = turn a set with two suns or with stepped pinions
problem-no-gap = { $found } is no room beside the sets
fix-connect-element = take { $what } away first
problem-not-there = what is to be changed is not there
fix-not-there = add an engine, a torque converter or a load first, or name a point that is there; the first and the last stay
problem-hold-end = { $second } is input or output, which must be free to turn
fix-hold-end = put a brake on it, or choose another input or output first

## The command line

cli-usage = usage: chart FILE [--apply ID,ID…] [--all] [--torque N·m] [--json] [--pedal 0…1] [--grade RISE/RUN] [--lockup] [--mesh EFFICIENCY] [--language LANGUAGE] [--help]
cli-search-usage = usage: search TASK.json [--shard K/N] [--out FILE] [--threads N] [--save-every SECONDS] [--estimate] [--language LANGUAGE], or search TASK.json --merge FILE,FILE… [--out FILE]
cli-search-shard = { $found } is no shard: write K/N, with K from 1 to N, and N at most { $most }
cli-search-threads = { $found } is no number of threads: write one from 1 to { $most }
cli-search-save = { $found } is no time between saves: write seconds from { $least } to { $most }
cli-search-estimate = { $all } candidates, about { $boxes } boxes to look at: about { $time } in { $threads } threads here, less where finds cut off others; in shards on several machines (--shard) as much sooner as there are
cli-search-resumed = going on at { $percent } %, where it was interrupted
cli-search-full = ended early with { $found } finds, as too many trains beat each other in something: name less that makes a train better, or narrow the tolerances; of { $all } candidates { $outside } were cut off as none has such ratios, { $beaten } as none can beat what was found, { $tried } tried
duration = { $unit ->
    [seconds] { $number } s
    [minutes] { $number } min
    [hours] { $number } hours
    [days] { $number } days
   *[years] { $number } years
 }
cli-search-no-task = name a task file
cli-search-line = { $file }, line { $line }: no find
cli-search-lines = { $file }: more than { $most } finds, which no shard writes
cli-search-progress = { $percent } % of { $all } candidates, { $found } found
cli-search-done = { $all } candidates: { $outside } cut off as none has such ratios, { $beaten } as none can beat what was found, { $tried } tried; { $found } found
cli-layouts-usage = usage: layouts TASK.json [--shard K/N] [--out FILE] [--save-every SECONDS] [--estimate] [--language LANGUAGE], or layouts --merge FILE,FILE… [--out FILE]
cli-layouts-no-task = name a task file, or files to merge
cli-layouts-progress = { $percent } %, { $found } found
cli-layouts-done = { $frames } ways of joining the sets, { $given } of them with more choices than were tried, { $layouts } layouts whose ratios could be right: { $useless } cannot be built or have an element to spare, { $toothless } have no teeth for them, { $unended } were not tried with all teeth; { $found } found
cli-layouts-unreached = whatever the teeth within the bounds, no way of joining the sets gives such a ratio to: { $ranges }
cli-layouts-estimate = { $part ->
    [whole] about { $frames } ways of joining the sets; by a sample of them very roughly { $time } in one thread here, it may be several times that, or a part of it; in shards (--shard) as much sooner as there are processors
   *[shard] about { $frames } ways of joining the sets; by a sample of them very roughly { $time } for this one of { $shards } shards here and { $whole } for all of them together, it may be several times that, or a part of it
}
cli-draw-usage = usage: draw FILE OUT.svg [section|lever|flow|operating|end:ID] [--apply ID,ID…] [--width CSS-PIXELS] [--dark] [--merged] [--power] [--one-module]
cli-draw-crossings = shafts cross { $count ->
    [one] once
   *[other] { $count } times
}
cli-misused = { $what }; { $usage }
cli-argument = { $argument } is not UTF-8
cli-needs-ids = --apply needs ids
cli-needs-torque = --torque needs N·m of 0 or more
cli-needs-value = { $option } needs a value
cli-needs-number = { $option } needs a number
cli-unknown-option = unknown option { $option }
cli-one-file = only one file at a time
cli-all-or-apply = --all and --apply exclude each other
cli-no-engine = { $file }: { $option } takes an engine and a load, and it has none
cli-and-more = { $first } (further problems: { $more })
cli-unwritten = the output: { $error }
cli-directory = a directory; name a file
cli-not-regular = not a regular file; name one that is
cli-too-long = { $found } bytes is more than such a file may have; keep it under { $most } bytes
cli-utf-16 = UTF-16 text; save it as UTF-8
cli-utf-32 = UTF-32 text; save it as UTF-8
cli-not-utf-8 = not UTF-8; save it as UTF-8 text
cli-language = no language "{ $found }"; use one of { $names }
# Headings of columns.
cli-range = range
cli-applied = applied
cli-state = state
# Degrees of freedom: at most 3 letters.
cli-dof = dof
# At most 7 letters.
cli-step = step
cli-ratio = ratio
# At most 13 letters.
cli-state-is = { $state ->
    [driving] driving
    [over-applied] over-applied
    [neutral] neutral
    [output-held] output-held
   *[tied-up] tied-up
}
cli-grip-is = { $grip ->
    [holds] holds
    [slips] slips
    [idle] idle
    [undetermined] undetermined
   *[no-data] no data
}
cli-spread = spread { $spread }
cli-tooth-check = tooth check, { $coupling }: { $check }
cli-ratio-is = ratio { $ratio }
cli-freedom = degrees of freedom { $freedom }
cli-formula = ratio = { $formula }
cli-speeds = speed per input turn
cli-on-its-pin = { $coupling }, { $pinion } on its pin
cli-free = free
cli-slips = slip of open elements per input turn
cli-slip-of = { $kind ->
    [brake] speed of { $first }
   *[clutch] { $first } less { $second }
}
cli-torques = torque per unit of input torque, positive in the input's direction
cli-from-on = from { $first } on { $second }
cli-at-output = from outside at the output
cli-on = on { $housing }
cli-undetermined = not determined: more is applied than needed
cli-goes-round = power goes round inside: up to { $most } of the input's
cli-efficiency = efficiency { $percent } %
cli-capacity = capacity over torque at { $torque } N·m of input torque (not a strength rating)
cli-slips-first = { $element } slips first, above { $torque } N·m of input torque
# Names of operating points: at most 8 letters.
cli-stable = stable
cli-unstable = unstable
cli-stall = stall
cli-point = engine { $engine }, input { $input }, output { $output }
cli-turning = { $speed } rev/min { $torque } N·m

## Words in drawings

# How a member moves.
motion-held = held
motion-forward = forward
motion-backward = backward
motion-free = free
motion-fights = fights
end-input = Input
end-output = Output
gear-teeth = { $teeth } teeth
# Of a stepped pinion.
gear-teeth-steps = { $first } and { $second } teeth
# Before a speed or what else is said of how a pinion turns.
gear-on-its-pin = on its pin
# What a one-way clutch does.
pack-locks = { $element } locks
pack-overruns = { $element } overruns
pack-idle = { $element } idle
# Signs that the key explains.
key-one-shaft = one shaft
key-open = open
key-closed = closed
key-behind = passes behind
key-no-power = no power
# Of a node or a line of the lever diagram.
lever-input = input
lever-output = output
lever-preview = preview
lever-input-speed = input { $speed } { $unit }
lever-input-turn = input: 1 turn
lever-blocked = { $line }: blocked
# A power, where it is more than the input's.
flow-times-input = { $times } × input
# Two lines: why no power flows, and that none does.
flow-idle = idle,
flow-member-idle = { $member } idle,
flow-member-held = { $member } held,
flow-no-power = no power
# Curves over engine speed.
diagram-engine-speed = engine speed, { $unit }
diagram-full-pedal = full pedal
diagram-engine = engine
diagram-load = load
diagram-pump = pump
diagram-pump-stall = pump, stall
# What stands in the drawing of shifts.
diagram-swaps-ratio = ratio, equal steps equally wide
diagram-swaps-backward = backward
diagram-traction-force = Force at the wheels, { $unit }
diagram-traction-speed = Road speed, { $unit }
diagram-traction-engine = Engine speed, { $unit }
diagram-traction-level = level
diagram-traction-slope = { $slope } %
diagram-traction-top = { $speed }
diagram-traction-road = what the road asks, by slope
diagram-traction-run = run from rest at full pedal
diagram-traction-shift = shift
diagram-swaps-now = applied now
diagram-swaps-from-here = single swap from here
diagram-swaps-single = single swap
diagram-swaps-double = double swap
diagram-swaps-other = not named
diagram-swaps-beyond = far beyond the axis
diagram-swaps-chain = chain

# What stands in the drawing of a shift in time.
diagram-timed-time = time, s
diagram-timed-commands = Commands
diagram-timed-applied = { $element } applied
diagram-timed-released = { $element } released
diagram-timed-cut = engine torque
diagram-timed-fill = fill
diagram-timed-speeds = Speed, { $unit }
diagram-timed-torques = Torque of clutches and brakes, { $unit }
diagram-timed-output = Torque at the output, { $unit }
diagram-timed-power = Power made heat, kW
diagram-timed-before = before
diagram-timed-torque = torque phase
diagram-timed-inertia = inertia phase
diagram-timed-after = after
diagram-timed-flare = flare
diagram-timed-bind = tie-up
diagram-timed-capacity = what it could carry
diagram-timed-kept = kept to compare
diagram-timed-wrong = flare or tie-up
diagram-timings-right = hardly any flare or tie-up
diagram-timings-release = release begins at, s
diagram-timings-apply = filling begins at, s

diagram-finds-unbeaten = none is better in both
diagram-finds-beaten = better in something else
diagram-finds-chosen = on the stage
diagram-finds-present = the teeth that the train had
diagram-finds-beyond = the teeth that the train had, beyond the plot

## What the half-section shows that cannot be built

caution-pass = { $one } would pass through { $other }
# What the housing is called where a member is held to it.
caution-support = the support of the { $member } of { $set }
caution-crosses = Cannot be built as drawn: { $passes }. No layout round one axis is without such a place.
caution-nests = Not as it would be built: here { $passes }, and there is a layout without such a place.
caution-undecided = Cannot be built as drawn: { $passes }.

## What drawings note

flow-loop = Recirculating power runs through { $sets }: { $member } carries { $share }.
flow-loop-share = Recirculating power runs through { $sets }: { $member } carries { $share } of the input's power.
# What the two inks of the flow mean.
flow-key-through = power that goes through
flow-key-round = power that goes round
flow-undivided = More is applied than needed: how the power divides depends on fit and elasticity, so no flow can be drawn.
flow-none = { $state }: { $answer }, so no power flows through.
power-scale = widest line: up to { $most } × input power
power-scale-short = up to { $most } × input
per-input-turn = per input turn

## The page: its frame

page-scenario = Scenario
page-pick-empty = A new, empty train
page-open-file = Open a file…
# In the list of scenarios.
page-own-file = { $name } (your file)
page-theme = Light or dark
page-theme-choice = { $choice ->
    [auto] Light or dark as the system
    [light] Always light
   *[dark] Always dark
}
page-language = Language
# Where the browser keeps nothing.
page-problem-language = this browser does not keep the choice
page-fix-language = allow the page to keep it, or set the browser's language
page-cautions = Cautions
page-cautions-text = Levertrain shows ideal motion and equilibrium with simple losses, for learning and early layout. It is not a service procedure and not a strength rating: nothing in it bends, heats or wears. Real transmissions can injure: parts turn without warning, and springs, pressure and raised vehicles store energy. The maker’s service information, local rules and qualified people come first.
page-dismiss = Dismiss this message
# A problem in a message; what mends it begins with a capital there.
page-problem = { $place }: { $problem }. { $fix }
page-fix = { $fix }.
page-more-problems = …and { $count } more.

## The page: what went wrong, and what is on screen all the same

page-heading-kept = That did not work. What was on screen is still there.
page-heading-nothing = Nothing can be shown yet.
page-heading-other = What the link asks for cannot be shown; here is another scenario instead.
page-heading-partly = Part of the link cannot be shown; the usual stands in its place.
page-heading-parts = Not everything that the page asks for can be shown.
page-heading-unopened = { $name } cannot be opened. What was on screen is still there.
page-heading-unkept = { $name } is open, until the page is reloaded.
page-heading-afresh = The engine was started afresh with this scenario.

page-place-link = link
page-place-engine = engine
page-problem-engine = it stopped working ({ $reason })
page-fix-engine-again = go on; should it happen again, reload the page
page-fix-engine-other = choose another scenario or reload
page-problem-large = the file has { $size } KiB, and a scenario has at most { $most } KiB
page-fix-large = choose a scenario file
page-problem-unkept = this browser does not keep it for a reload
page-fix-unkept = save it as a file, or open it again after one
page-problem-panel = what belongs in the panel did not load ({ $reasons })
page-fix-panel = check the connection and reload the page
page-problem-scenario = there is no scenario "{ $stem }"
page-fix-scenario = choose one from the list of scenarios
page-problem-speed = { $value } is not a speed
page-fix-speed = use 0 to { $most } rev/min
page-problem-torque = { $value } is not a torque
page-fix-torque = use 0 to { $most } N·m
page-problem-losses = "{ $code }" is not a mesh efficiency, a drag and a way of driving
page-fix-losses = write the efficiency of a mesh above 0 and up to 100, the drag from 0 to { $most } and 0 or 1 for coasting
page-problem-road = "{ $code }" is not a pedal, a slope and a lock-up
page-fix-road = write the pedal from 0 to 100, the slope from { $least } to { $most } and 0 or 1 for lock-up
page-problem-unit = "{ $code }" is not a unit
page-fix-unit = use some of { $known }
page-problem-view = there is no view "{ $name }"
page-problem-part = the element has no part "{ $name }"
# Of an attribute that takes some names only.
page-problem-value = it does not take "{ $name }"
page-problem-range = the train has no range "{ $id }"
page-fix-no-range = name the elements by "applied" instead: this train names no ranges
# Of a train's file that a page names by its address.
page-problem-unread = { $address } could not be read ({ $reason })
page-fix-unread = check the address, which is taken from that of the page
page-fix-unread-apart = check the address; another host than the page's must send the file with Access-Control-Allow-Origin for { $host }
page-fix-known = use { $known }, or leave it out
page-problem-link-nowhere = it applies elements without naming a scenario
page-problem-link-key = "{ $key }" is not something a link can say
page-problem-link-broken = what it says for "{ $key }" is broken
page-problem-link-speed = "{ $text }" is not an input speed from 0 to { $most } rev/min
page-problem-link-torque = "{ $text }" is not an input torque from 0 to { $most } N·m
page-problem-link-train = the train in it is broken, or too long
page-fix-link = check that the whole link was copied, or choose below

## The page: answer, drawings and controls

page-answer = Answer
page-applied = { $elements } applied
page-applied-none = Nothing applied
page-applied-range = { $range } · { $applied }
page-preview = Preview
page-preview-range = Preview: { $range }
# Before the answer that it would give.
page-preview-gives = Preview: { $does ->
    [releasing] releasing
   *[closing] closing
} { $element } gives
# Under the ratio; the state stands in letters of its own.
page-answer-more = { $state }, { $pace }; exactly { $exact }
page-answer-chosen = { $count ->
    [one] { $count } speed can be chosen
   *[other] { $count } speeds can be chosen
}
page-answer-turn = Turn by hand
page-answer-degrees = { $count } degrees of freedom where one is wanted
# For those who hear the page.
page-spoken = { $applied }. { $state }: { $answer }.
page-spoken-ratio = { $applied }. Ratio { $ratio } to 1, { $state }: { $answer }.
page-hint = Drag a plate pack to close or open it, or press it. Point at a member to follow it everywhere. P and Q are pinions, and a number beside a gear is its teeth.
# The same where clutches and brakes cannot be changed.
page-hint-locked = On this page the clutches and brakes stay as they are. Point at a member to follow it everywhere. P and Q are pinions, and a number beside a gear is its teeth.
page-drawings = Drawings
page-drawings-scroll = Drawings; they scroll sideways
# What the signs of the drawings mean, said where they stand.
page-sign-held = { $shaft } stands still: black, its gears hatched
page-sign-forward = { $shaft } turns as the input does: blue, arrows up
page-sign-backward = { $shaft } turns against the input: orange, arrows down
page-sign-free = { $shaft } is free, nothing decides its speed: grey and dashed
page-sign-fights = { $shaft } is tied up: red, with a star
page-sign-open = { $element } is open: its plates stand apart
page-sign-applied = { $element } is applied: its plates are pressed together
page-drawing-section = Half-section drawing of { $train }
# Of gears that were all to have one size of teeth, in a drawing that would be too high then.
page-out-of-scale = Not to one scale throughout, as the drawing would be too high: gears that would not clear the shafts inside them are drawn larger than the rest.
page-drawing-section-caution = Half-section drawing of { $train }. { $caution }
page-drawing-lever = Lever diagram of { $train }
page-drawing-lever-said = Lever diagram of { $train }; the table of members says the same
page-drawing-flow = Power flow of { $train }; the table of torque and power says the same
page-drawing-operating = Torque of the engine, and what is asked of it, over engine speed; the table says the same
page-drawing-end = { $set } seen along the axis
page-stage-size = Size of the drawings
page-stage-larger = Larger
page-stage-smaller = Smaller
page-whole = Whole train
page-elements = Clutches and brakes
# What a switch on the drawing changes.
page-switch = { $element }, { $kind ->
    [brake] holds { $first }
   *[clutch] joins { $first } and { $second }
}; { $state ->
    [applied] applied
   *[open] open
}
page-ranges = Ranges
page-release-all = Release all
page-shown = What the half-section shows
page-shown-speed = Speed
page-shown-power = Power
page-turn = Turn
page-stop = Stop
page-turning = Turning
page-rate-normal = Normal
page-rate-slow = Slow
page-rate-very-slow = Very slow
page-stillness = Your system asks for no motion.
page-controls = Input and turning
page-input-speed = Input speed
page-input-speed-in = Input speed in { $unit }
page-input-torque = Input torque
page-unit-of = Unit of { $quantity ->
    [speed] speed
    [torque] torque
   *[power] power
}
page-up-to = 0 to { $most }
page-not-number = Not a number: { $range }
page-allowed = Allowed: { $range }
page-joined = Join sets that share two shafts in one lever
page-joined-none = (no two sets here share two shafts)
page-one-scale = Draw all gears to one scale

## The page: torque and power in words

# A member by what it is and where, inside a sentence.
page-member = { $member } of { $set }
page-the-member = the { $member } of { $set }
page-some-member = a member
# What a member does, and an element.
page-does-drive = drives the set
page-does-driven = driven by the set
page-does-hold = holds
page-does-nothing = carries no torque
page-undetermined = not determined
page-free = free
page-element-open = open
page-element-overruns = overruns
page-element-idle = idle
page-element-keeps = keeps { $first } from turning { $way ->
    [forward] forward
   *[backward] backward
}
page-element-at-rest = holds { $first } and { $second } together at rest
page-element-passes = passes power from { $from } to { $to }
page-end-takes = takes in { $torque }, { $power }
page-end-delivers = delivers { $torque }, { $power }
# Of a member that is pointed at: what it does as above.
page-member-does = { $member } { $does }
page-member-does-at = { $member } { $does }: { $torque }, { $power }
page-share = { $member } { $share }
page-shares = driven by { $shares }
page-recirculation = { $name } carries { $times } times the input power: part of it goes round inside the train.
page-indeterminate = More is applied than needed: equilibrium does not say who carries how much.
# An exact share of what goes in.
page-exactly = { $share } × { $quantity ->
    [speed] input speed
    [torque] input torque
   *[power] input power
}
# A part of a set, or what an element loses, in a table.
page-part-of-set = { $set }, { $part }

## The page: panels

page-panel-chart = Range chart
page-panel-members = Members
page-panel-effort = Torque and power
page-panel-losses = Losses
page-panel-teeth = Tooth checks
page-panel-combinations = Every combination
page-panel-compare = Compare
page-panel-worksheet = Worksheet
page-panel-keys = Keys
page-keys-key = Key
page-keys-does = What it does
page-keys-anywhere = Anywhere
page-keys-list = shows this list
page-keys-back = closes what is open; gives up what is being dragged
page-keys-ranges = On the ranges
page-keys-next-range = apply the next or the one before
page-keys-digit = apply the first to the ninth range
page-keys-release = releases all
page-keys-switches = On the clutches and brakes of the drawing
page-keys-next = go to the next or the one before
page-keys-toggle = applies or releases it
page-keys-drawings = On the drawings
page-keys-size = show them larger or smaller
page-keys-pan = scroll what does not fit
page-keys-parts = Where the train is changed
page-keys-next-part = go to the next part or the one before
page-keys-open = shows what can be done with it
page-keys-undo = takes the last change back
page-keys-redo = makes it again
page-keys-by-hand = On a member that is turned by hand (Sources and outputs)
page-keys-turn = faster or slower by 10 rev/min
page-keys-turn-far = the same by 100 rev/min
page-keys-turn-rest = to a standstill
page-keys-timed = On a handle of Shift in time
page-keys-ramp = sooner or later by a hundredth of a second
page-keys-ramp-far = the same by a tenth of a second
page-keys-ramp-home = to the beginning
page-keys-timed-undo = takes the last change of the timing back
page-keys-class-begin = full screen, in letters for the back row
page-keys-class = In class
page-keys-class-next = the next range or step, or the one before
page-keys-class-point = point at the next member or the one before
page-keys-class-keep = keep that member lit, or let it go
page-keys-class-hide = hides or shows ratio, words, numbers; shows all
page-keys-class-steps = steps of the walkthrough instead of ranges, or ranges again
page-key-escape = Esc
page-key-space = Space
page-key-enter = Enter
page-key-page-down = Page Down
page-key-page-up = Page Up
page-key-control = Ctrl
page-key-z = Z
page-key-y = Y
page-panel-share = Pictures, link and embedding
page-panel-working = Working
page-panel-flow = Power flow
page-panel-operating = Engine and road
page-panel-capacity = Clutch capacity
page-panel-end-view = End view
page-panel-slips = Slip of open clutches and brakes
page-panel-bearings = Bearings and mesh orders

page-per-input-turn = Per input turn
page-ratio = Ratio
page-shaft = Shaft
page-input = Input
page-output = Output

## The page: range chart, members, every combination

page-chart-range = Range
page-chart-was = was { $ratio }
page-chart-ratio = Ratio
page-chart-step = Step
page-chart-step-note = Step: this ratio over the next range’s.
page-chart-none = This scenario names no ranges.
page-chart-efficiency = Efficiency in percent
# After the sign for it, for those who hear the page.
page-chart-efficiency-heard = efficiency,
page-chart-coasting = coasting
# What the marks of the chart mean, each before its word.
page-chart-marks = { $clutch } clutch { $brake } brake, applied
page-chart-marks-one-way = { $clutch } clutch { $brake } brake, applied { $one-way } one-way clutch, locked
page-chart-braking = Engine braking in { $ranges }.
page-chart-braking-none = No range has engine braking.
page-chart-spread = Spread { $spread }, largest forward ratio over smallest.
page-members-motion = Motion
# Beside the name of a shaft.
page-members-moment = The speeds that the drawings show now.
page-members-input = input
page-members-output = output
page-combinations-applied = Applied
page-combinations-state = State
page-combinations-show = Show
page-combinations-all = all { $count }
page-combinations-of = { $state } ({ $count })
# Before they have been counted.
page-combinations-any = all
page-combinations-none = none
page-combinations-order = Order
page-combinations-by-counting = as counted
page-combinations-by-ratio = ratio
page-combinations-by-state = state
page-combinations-by-applied = number applied
page-combinations-by-changes = fewest changes
page-combinations-elements = Elements in the combinations shown
# The heading that folds them, with what is asked of them.
page-combinations-asked-none = Elements: any
page-combinations-asked = Elements: { $wishes }
page-combinations-asked-applied = { $element } applied
page-combinations-asked-open = { $element } not applied
page-combinations-either = either
page-combinations-is-applied = applied
page-combinations-is-open = not applied
page-combinations-count = { $count ->
    [one] { $count } combination
   *[other] { $count } combinations
}
page-combinations-progress = Combinations looked at
# While they are still being looked at, of which some are not listed as they are not asked for.
page-combinations-walking = { $known } of { $all } looked at, { $listed } listed
page-combinations-stopped = Stopped at { $known } of { $all }: the list is not complete.
page-combinations-stop = Stop
page-combinations-go-on = Go on
# What makes a combination of the one on screen by one change.
page-combinations-apply = + apply { $element }
page-combinations-release = − release { $element }
page-combinations-take = Add { $elements } as a range

## The page: torque and power, losses

page-effort-member = Set and member
page-effort-train = Whole train
page-effort-drives = drives the train
page-effort-delivers = delivers
page-effort-reaction = takes the reaction
page-effort-out = { $torque } out
page-effort-none = { $state }: only a train that drives has torques to show.
page-effort-signs = Without losses. A member’s torque is what its shaft puts on the set, positive forward; an element’s is the size of what it holds or passes on. In the whole train, torque goes in at the input and is given out at the output and to the housing: the input’s is the sum of these two.
page-effort-driving = Shown for the input driving the load; that the load drives the input is chosen for losses only.
page-effort-power-in = Power in
page-losses-loss = Loss
page-losses-all = All
page-losses-drag = drag
page-losses-efficiency = { $way ->
    [coasting] { $efficiency } efficiency coasting; { $torque } at the output.
   *[driving] { $efficiency } efficiency; { $torque } at the output.
}
page-losses-outcome = { $outcome ->
    [self-locking] Self-locking: no power gets through, the losses take all of it.
    [ambiguous] Ambiguous: power could go round in more than one way, each with another efficiency, and the gears do not say which.
    [indeterminate] More is applied than needed: equilibrium does not say who carries how much.
    [too-many] Too many gear sets roll at once to try every way the power may go through them.
   *[no-drive] Only a train that drives has an efficiency.
}
page-losses-no-torque = Without input torque there is nothing to weigh the drag against.
page-losses-mesh = Mesh efficiency
page-losses-mesh-note = 99 % for every mesh is common practice; makers’ data differ.
page-losses-open = Drag of open elements
page-losses-open-note = at { $slip } rev/min of slip, each; { $formula }, and 0 leaves it out.
page-losses-way = Power goes
page-losses-way-drive = The input drives the load
page-losses-way-coast = The load drives the input

## The page: pictures, link and embedding

page-share-section = Half-section, SVG
page-share-lever = Levers, SVG
page-share-link = Link to this view
page-share-embed = Embed this view in a page
# How it is put into the page.
page-share-form = As
page-share-form-of = { $form ->
    [frame] a frame
   *[element] an element
}
page-share-shown = It shows
page-share-shown-of = { $shown ->
    [unfolded] also what is unfolded here
    [all] everything
    [exercise] the exercise sheet of this train
    [sheet] the exercise sheet that is open
   *[plain] answer and drawings
}
page-share-locked = What cannot be changed
page-share-locked-of = { $locked ->
    [train] which train it is
    [elements] clutches and brakes
    [all] anything
   *[other] nothing
}
page-share-theme-of = { $theme ->
    [light] light
    [dark] dark
    [page] as the page
   *[other] as its reader likes
}
page-share-language = as the page
page-share-save = Save { $file }
page-share-beside = { $form ->
    [frame] Put { $file } into the folder of the site, beside frame.html.
   *[element] Put { $file } beside your page.
}
page-share-sheet = the exercise sheet “{ $title }”
page-share-host = { $form ->
    [frame] Where the page is on another host, a Content-Security-Policy that this folder is sent with must name it in frame-ancestors.
   *[element] Where the page is on another host, this folder must be sent with the header Access-Control-Allow-Origin: * (or that page’s origin in the place of the star).
}
page-share-more = All that a page can ask for
page-share-own = This train is too long for a link, which holds { $most } characters at most: save it as a file and pass that on.
page-share-copy = Copy
page-share-copied = Copied
page-share-selected = Selected: copy it now

## The page: taking figures and tables away

page-take = Take away
page-take-of = Take away: { $what }
page-take-svg = SVG
page-take-png = PNG
page-take-svg-light = SVG, light
page-take-png-light = PNG, light
page-take-svg-shown = SVG, as shown
page-take-png-shown = PNG, as shown
page-take-csv = CSV
page-take-copy = Copy for a spreadsheet
# Where the browser does not let the page copy.
page-take-uncopied = Cannot copy here: take CSV
# What figures are called in their files and the names of these.
page-take-section = Half-section
page-take-lever = Lever diagram
page-take-operating = Operating diagram
page-take-titled = { $what }, { $train }
page-take-none-applied = nothing applied
# Headings of columns, in a file.
page-take-exact = { $what }, exact
page-take-group = Under
page-take-speed = Speed in { $unit }
page-take-torque = Torque in { $unit }
page-take-power = Power in { $unit }
page-take-speed-share = Exact share of the input speed
page-take-torque-share = Exact share of the input torque
page-take-power-share = Exact share of the input power
page-take-loss = Loss in { $unit }
page-take-grip = Grip
page-take-wear = Capacity by uniform wear in { $unit }
page-take-pressure = Capacity by uniform pressure in { $unit }
page-take-greatest = Greatest pressure in N/mm²

## The page: comparing

page-compare-note = Pin what is shown now. It then stands behind the levers, hollow, and beside the numbers here, whatever you change or open after it.
page-compare-pin = Pin what is shown now
page-compare-pin-again = Pin what is shown now instead
page-compare-unpin = Let go
# What is shown of a train: a range, or what is applied.
page-compare-what = { $shown } of { $train }
page-compare-legend = Pinned: { $what }
page-compare-pinned = Pinned
page-compare-now = Now
page-compare-difference = Difference
page-compare-difference-words = Difference in words
page-compare-figure = Figure
page-compare-as-applied = As applied
page-compare-ratios = Ratios of the ranges
page-compare-steps = Steps
page-compare-spread = Spread
page-compare-holds = What clutches and brakes carry, { $unit }
page-compare-slips = Slip of open clutches and brakes, { $unit }
page-compare-state = State
page-compare-output = Output speed, { $unit }
page-compare-efficiency = Efficiency, %
page-compare-torque = Output torque, { $unit }
page-compare-housing = Torque on the housing, { $unit }
page-compare-same = same
page-compare-all-same = all the same
page-compare-differs = differs
page-compare-only-pinned = only pinned
page-compare-only-now = only now
# A difference with its sign, and the same in a word.
page-compare-by = { $by } { $way ->
    [higher] higher
   *[lower] lower
}
page-compare-higher = higher
page-compare-lower = lower
page-compare-slips-signs = Both at the input speed and torque that are set now. A step is a ratio over the next range's; what a clutch or brake carries has no sign.

## The page: worksheet

page-worksheet-note = One sheet of paper, A4 or letter: the half-section with everything released, and tables of every range for a class to fill in. The sheet with answers has them in place of the blanks.
page-worksheet-leave = Leave blank
page-worksheet-ratios = Ratios
page-worksheet-states = States
page-worksheet-held = Held shafts
page-worksheet-speeds = Speeds
page-worksheet-print = Print with blanks
page-worksheet-print-answers = Print with answers
page-worksheet-no-styles = its styles did not come
page-worksheet-again = check the network and press again
# On the paper.
page-worksheet-name = Name
page-worksheet-date = Date
page-worksheet-answers = Answers
page-worksheet-input = Drawn with everything released: what is dashed is free. The input turns forward at { $speed }. Ratio: input speed over output speed; a shaft that turns backward has a minus sign.
page-worksheet-ranges = What every range does
page-worksheet-shafts = Speeds in every range, { $unit }
page-worksheet-applied = Applied
page-worksheet-state = State
page-worksheet-none = none
page-worksheet-shown = As shown

## The page: changing the train

page-panel-edit = Change the train
page-edit-note = What you change is kept in this browser as a train of your own, in the list above; the scenario it came from stays. Half-made is no mistake: what is joined to nothing is drawn free.
page-edit-refused = That change cannot be made; everything is as it was.
page-edit-undo = Undo
page-edit-redo = Redo
page-edit-save = Save as a file
page-edit-begin = Begin anew
page-edit-repeat-train = Open one more like this
page-edit-delete = Delete train
page-edit-restore = Bring back what was deleted
page-edit-begin-with = What to begin with
page-edit-nothing = an empty train
page-edit-starter = { $count ->
    [one] one set
   *[other] { $count } sets in series
}
page-edit-name = Name
page-edit-shafts = Names of the shafts
page-edit-label = Name
page-edit-from-to = { $least } to { $most }
# A field that finds rows of a long list, and how many it has found.
page-edit-find = Find
page-edit-find-in = Find in: { $list }
page-edit-found = { $count } of { $all }
page-edit-sets = Sets
page-edit-no-sets = There is no set yet.
page-edit-kind = Kind
page-edit-add-set = Add this set
page-edit-add = Add
page-edit-repeat = Copy
page-edit-remove = Remove
page-edit-remove-what = Remove { $label }
page-edit-earlier = Move { $label } forward in the order
page-edit-later = Move { $label } back in the order
page-edit-part = Part
page-edit-turns-with = Turns with
page-edit-teeth-of = Teeth of the { $gear } of { $label }
page-edit-pinions = pinions
page-edit-pinions-of = Pinions of { $label }
page-edit-shaft-of = Shaft of the { $member } of { $label }
# A button under tooth rules that are not kept: the nearest counts that keep them.
page-edit-fit = Take { $gears }
page-edit-fit-gear = { $gear } { $teeth }
page-edit-own-shaft = a shaft of its own
page-edit-mesh = Teeth of the second gear
page-edit-external = outside
page-edit-internal = inside
page-edit-brake = Brake
page-edit-clutch = Clutch
page-edit-one-way = One-way clutch
page-edit-holds = holds
page-edit-joins = joins
page-edit-keeps = keeps
page-edit-way = Way it locks
page-edit-from-backward = from turning backward past
page-edit-from-forward = from turning forward past
page-edit-give-friction = Torque it can hold…
page-edit-give-friction-to = Say what torque { $label } can hold
page-edit-friction = Torque it can hold
page-edit-friction-of = { $what }, { $label }
page-edit-no-friction = Leave this out
page-edit-no-friction-of = Leave out what torque { $label } can hold
page-edit-surfaces = friction surfaces
page-edit-outer-radius = outer radius, mm
page-edit-inner-radius = inner radius, mm
page-edit-coefficient = coefficient of friction
page-edit-clamp-force = clamp force, N
page-edit-give-engine = Put an engine before it and a load behind it
page-edit-no-engine = Take engine and load away
page-edit-give-converter = Put a torque converter behind the engine
page-edit-no-converter = Take the torque converter away
page-edit-full = Full pedal
page-edit-motoring = Pedal released
page-edit-speed-ratio = Speed ratio
page-edit-torque-ratio = Torque ratio
page-edit-capacity-factor = Capacity factor in { $unit }
page-edit-point-of = { $what }, point { $number }, { $list }
page-edit-add-point = Add a point after point { $number }, { $list }
page-edit-remove-point = Remove point { $number }, { $list }
page-edit-load = Load at the output
page-edit-load-constant = resistance at any speed, { $unit }
page-edit-load-linear = and what grows with the speed, at 1000 rev/min, { $unit }
page-edit-load-quadratic = and what grows with its square, at 1000 rev/min, { $unit }
page-edit-load-weight = weight: torque here if all of it hung from the wheels, { $unit }
page-edit-end-of = What { $label } is on
page-edit-first-end = On
page-edit-second-end = And on
page-draw-grips = Parts of the train, to be changed
page-draw-mode = What the drawing does
page-draw-parts = Change parts
page-draw-clutches = Work the clutches
page-draw-hint = Draw a line from one part to another to join them, or to Input, Output or the housing. Press a part, a set, a clutch or + for more.
page-draw-hint-join = What is { $what } to be joined with? Press it; by keys, the arrows lead there and Enter chooses. Escape leaves it.
page-draw-hint-clutches = Press the plates of a clutch or brake to apply or release it, or drag them.
page-draw-member = { $member } of { $set }
page-draw-on = { $member }, on { $shaft }
page-draw-pair = { $one } and { $other }
page-draw-gap = where the first set goes
page-draw-gap-before = new set before { $set }
page-draw-gap-after = new set after { $set }
page-draw-new-set = A new set here
page-draw-close = Close
page-draw-join = Join with…
# Of one end of a clutch, on another part.
page-draw-put-end-on = Put an end on…
page-draw-instead = { $shaft } instead of { $other }
page-draw-joins-already = It joins that already.
page-draw-name = Name
page-draw-shaft-name = Name of the shaft
page-draw-hold = Hold for good
page-draw-let-go = Let it turn
page-draw-cut-off = Cut off
page-draw-make-input = Make it the input
page-draw-make-output = Make it the output
page-draw-one-shaft = One shaft
page-draw-one-already = They turn as one already.
page-draw-to-input = Towards the input
page-draw-to-output = Towards the output
page-draw-ratio = Ratio of the set
page-draw-ratio-now = { $formula } = { $ratio }: { $teeth }
page-draw-turn = Turn round
page-draw-any-place = Where it fits best
page-draw-apply = Apply
page-draw-release = Release
page-draw-other-way = Lock the other way
page-draw-teeth = { $gear }, teeth
page-draw-fewer = One less: { $what }
page-draw-more = One more: { $what }
page-edit-add-range = Make a range of what is applied
page-edit-broken = { $kind }; its teeth break a rule
page-edit-is-range = { $range } applies just that. Apply another combination in the drawing, then make it a range.
page-edit-move = Move
page-edit-take = Set to what is applied
page-edit-take-for = Have { $label } apply what is applied now

## The page: the train as text

page-panel-file = File
page-file-note = This is the file of the train on stage. Change it and the train follows; change the train and it is written anew.
page-file-text = The train as the text of a file
page-file-keeps = { $count ->
    [one] One problem. On stage is the last train that had none.
   *[other] { $count } problems. On stage is the last train that had none.
}
page-file-line = Line { $line }
page-file-step-back = The last step of the train is taken back, wherever it was made.
page-file-step-again = The step of the train that was taken back is made again.
page-file-back = Drop this text and show the train's

## The page: an exercise sheet on paper

page-handout = Print an exercise sheet
page-handout-note = For a class: with room for the answers, or with them.
page-handout-which = Exercise sheet
page-handout-file = A file…
page-handout-on-screen = Go through this range on screen first, with the walkthrough: questions below ask what it tells.
page-handout-apply = Applied:
page-handout-order = In order:
page-handout-becomes = { $range }: { $words }
page-handout-number = { $plain } ({ $exact })

## The page: in class

page-class = In class
page-class-title = In class: full screen, in letters for the back row ({ $key })
page-class-of = In class: { $train }
page-class-bar = What is shown
# A button and its key.
page-class-by-key = { $words } ({ $key })
page-class-next = Next
page-class-back = Back
page-class-way = What comes next
page-class-way-name = { $way ->
    [steps] Steps
   *[ranges] Ranges
}
page-class-hide = Hide
page-class-part = { $part ->
    [ratio] Ratio
    [words] Words
   *[numbers] Numbers
}
page-class-show = Show all
page-class-end = End
page-class-hidden = { $part ->
    [ratio] Ratio hidden
   *[words] Words hidden
}
# One letter of the keyboard for each.
page-class-key = { $part ->
    [ratio] R
    [words] W
    [numbers] N
    [all] A
   *[steps] S
}
page-fix-class = press the button again

## The page: walkthrough

page-panel-walk = Walkthrough
page-walk-flow = Power flow, step by step
page-walk-steps = Steps of the walkthrough
page-walk-previous = Previous
page-walk-next = Next
page-walk-play = Play
page-walk-stop = Stop
page-walk-close = Close
page-walk-pace = Pace
page-walk-seconds = { $seconds } s a step
page-walk-told = Step { $at } of { $of }: { $text }
page-walk-known = Speeds known now: { $shafts }.
page-walk-parts = What each member does
page-walk-member = Member
page-walk-does = Does
page-walk-torque = Torque per input torque
page-walk-shift = Shift to another range
page-walk-to = Shift to
page-walk-speeds = Speeds before and after the shift
page-walk-per-turn = Speeds are per input turn.
page-walk-before = Before
page-walk-after = After
page-walk-difference = Difference
page-walk-change = Change

## The page: working, slip, bearings, end view, tooth checks

page-working-ratio = Formula of the ratio
page-working-sets = Speed equation of each set
page-working-none = { $state }: there is no ratio to work out.
page-working-only-these = The ratio holds only with these very tooth counts: there is no formula in symbols.
page-working-only-these-spare = More is applied than needed, and it goes together only with these very tooth counts: there is no formula in symbols.
page-working-too-long = The formula of this ratio is too long to read, so none is written.
# What the symbols of the formulas mean, one after the other.
page-working-symbols = { $ratio } is input speed over output speed; { $symbols }.
page-working-sun = S and R are the teeth of sun and ring, C is the carrier
page-working-two-suns-ring = Sa, Sb and R are the teeth of small sun, large sun and ring, C is the carrier
page-working-two-suns = Sa and Sb are the teeth of first and second sun, C is the carrier
page-working-steps = P and Q are the teeth of the two steps of a pinion, Q of that in the ring or on the second sun
page-working-pair = Za and Zb are the teeth of a pair’s first and second gear
page-working-speed = ω is a speed
page-working-count = the last figure counts the sets in order
page-slips = Slip of open elements
page-slips-element = Open element
page-slips-in = Slip, { $unit }
page-slips-none = Nothing is open.
# Whose speed the slip is. Here and below, what stands in no sentence is $first-label and $second-label.
page-slips-of = { $first }
page-slips-past = { $first } past { $second }
page-slips-signs = A brake’s slip is the speed of what it would hold. A clutch’s is how fast its first side turns past its second: positive where the first turns forward, seen from the second.
page-meshes = Meshes
page-mesh = Mesh
page-per-output-turn = Per output turn
page-meshes-note = The order of a mesh is how often teeth meet in it while the input, or the output, turns once. Times the speed in turns a second it is the frequency, here at { $speed } of the input.
page-pins = Pins
page-pin = Pinion on its pin
page-pin-teeth = Teeth
page-pin-speed = Relative to the carrier, { $unit }
page-end-view-set = Seen from the input
page-teeth-note = { $set }: { $text }.

## The panel of a train on the road

page-panel-traction = Traction and driving
page-drawing-traction = Traction diagram and saw-tooth diagram: { $train }
page-traction-lack = { $what } { $fix }
page-traction-rule = Shift up
page-traction-by-force = where the force curves cross
page-traction-by-speed = at an engine speed
page-traction-shift-speed = Engine speed to shift at
page-traction-lockup = Torque converter
page-traction-open = open in all ranges
page-traction-locked-from = locked up from { $range } on
page-traction-slopes = Slopes of the road
page-traction-cursor = Road speed that is looked at
page-traction-at = At { $speed }:
page-traction-reads = { $range }: { $force }, engine { $speed }
page-traction-road-reads = road, { $slope }: { $force }
page-traction-nothing-runs = the engine runs in no range
page-traction-plot-note = Point anywhere to read the values at that road speed; press a line to apply its range. With the keyboard: arrow keys on the plot move the road speed, the buttons in the table apply a range.
# Of a table, by what it lists.
page-traction-table = { $table ->
    [ranges] What each range can do at full pedal
    [shifts] Shifts of the run from rest
   *[run] Run from rest at full pedal on the level
}
page-traction-column = { $column ->
    [range] range
    [ratio] ratio
    [top] top speed on the level, { $unit }
    [top-engine] engine there, { $unit }
    [climb] steepest slope, { $unit }
    [climb-at] at, { $unit }
    [shift] shift
    [at] road speed, { $unit }
    [before] engine before, { $unit }
    [after] engine after, { $unit }
    [force-before] force before, { $unit }
    [force-after] force after, { $unit }
    [speed] road speed
    [time] time, { $unit }
   *[distance] distance, { $unit }
}
page-traction-limit = engine limit
page-traction-any = any road
page-traction-at-limit = the engine’s last speed
page-traction-nearly = 99 % of the top speed
page-traction-fastest = It goes fastest in { $range }: { $speed } on the level.
page-traction-steepest = By its force alone it climbs { $slope } % in { $range }, if tyres pass that.
page-traction-steepest-any = In { $range } its force alone is enough for any road, steeper than 100 % too; tyres slip long before that.
page-traction-time = From rest it reaches { $speed } in { $time } s.
page-traction-vehicle = Mass { $mass } kg, by the weight of the load in the file.
page-traction-weightless = The load in the file has no weight: slopes ask nothing more.
page-traction-stated-title = Change wheels, final drive and engine inertia
page-traction-stated-note = What is typed goes into the file, and can be undone. The load with its weight is changed where the train is; inertias of shafts and of what the output drives in Shift in time.
page-traction-stated = { $what ->
    [wheel-radius] Radius of a driven wheel
    [final-drive] Final drive
   *[engine-inertia] Inertia of the engine
  }
page-traction-assumed = Assumed, as the file does not say: { $values }.
page-traction-assumed-value = { $what ->
    [wheel-radius] radius of the wheels { $value } m
    [final-drive] ratio of the final drive { $value }
    [engine-inertia] inertia of the engine { $value } kg·m²
    [shaft-inertia] inertia of shafts without one, { $value } kg·m² each
   *[load-inertia] inertia behind the output { $value } kg·m²
}
page-traction-note = Full pedal, level road, no wind; shifts take no time and do not interrupt the force. Below the engine’s lowest speed a starting clutch slips, or the open converter does; the engine behind a converter is taken to be settled at any time, so that its own inertia is left out there, and times are some percent too short. Meshes lose what is assumed for losses; the final drive loses nothing.
page-traction-caution = Ideal: tyres are taken to pass any force, which steep slopes in low ranges exceed by far. Do not decide about vehicles or loads, slopes or speeds on these numbers; the maker’s data and qualified people do.

## The page: engine and road

page-operating-point = Operating point
page-operating-note = Steady running only, by tables and the mesh efficiency under Losses; the drag of open elements is left out. At its lowest speed an idle control keeps the engine running. For learning and early layout: the maker’s service information comes first.
page-operating-pedal = Pedal
page-operating-slope = Slope
page-operating-level = level
page-operating-up = { $slope } up
page-operating-down = { $slope } down
page-operating-lockup = Lock-up clutch applied
page-operating-use = Use { $speed } and { $torque } at the input
page-operating-output = output { $torque }
page-operating-none = no steady point
page-operating-unstable = Steady, but unstable
page-operating-idle = Steady at idle, stable
page-operating-stable = Steady, stable
page-operating-stall = Stall: output held
page-operating-resists = the load resists with { $torque }
page-operating-drives = the load drives with { $torque }
page-operating-engine = Engine
page-operating-pump = Engine, pump
page-operating-turbine = Input, turbine
page-operating-locked = engine and input as one, gears { $gears } efficient
page-operating-open = speed ratio { $speed }, torque ratio { $torque }, converter { $converter } and gears { $gears } efficient

## The page: clutch capacity

page-capacity-margins = Margins
page-capacity-element = Element
page-capacity-margin = Margin
page-capacity-must-hold = Must hold, { $unit }
page-capacity = Capacity
page-capacity-in = Capacity, { $unit }
page-capacity-wear = Uniform wear
page-capacity-pressure = Uniform pressure
page-capacity-margin-note = Margin: capacity by uniform wear over the torque to hold, without losses. The line across the bar is 1; below it the element slips.
page-capacity-note = Capacity by uniform wear (linings that have run in): coefficient of friction × clamp force × surfaces × mean radius; by uniform pressure (new linings) a little more. Last, the greatest pressure on a run-in lining.
page-capacity-caution = For learning and early layout, not a strength rating: friction and force vary with oil, heat and wear. The maker’s service information comes first.
page-capacity-hint = holds up to { $torque }
page-capacity-none-slips = At { $torque } of input torque no range slips.
page-capacity-slip = At { $torque } of input torque { $ranges } { $count ->
    [one] slips
   *[other] slip
}.
page-capacity-first = { $element } slips first, above { $torque } at the input
page-capacity-no-drive = does not drive
page-capacity-shared = more is applied than needed: not determined
page-capacity-no-data = nothing with friction data
page-grip = { $grip ->
    [slips] slips
    [holds] holds
    [idle] carries no torque
    [undetermined] not determined
   *[no-data] no data
}

## Faults

# A member that a broken spline has cut off its shaft: it has become a shaft of its own.
fault-cut-off = the cut-off { $member } of { $set }
fault-one-ways-lock = Tied up: the input could turn only if a one-way clutch let go the way that it locks.

## Exercises

ask-reach = Apply clutches and brakes so that the ratio is { $about } (exactly { $exact }).
ask-members = { $part ->
    [held] Which members of { $set } are held against the reaction in { $range }?
    [driving] Through which members does power go into { $set } in { $range }?
   *[driven] Through which members does power go out of { $set } in { $range }?
}
ask-direction = Which way does { $shaft } turn in { $range }?
ask-speed = How many turns does { $shaft } make in { $range } while the input makes one? Write a decimal or a fraction, with a minus sign where it turns backward.
ask-neutral = { $count ->
    [one] One clutch or brake is applied. With which is the train in neutral? Find all.
   *[other] { $count } clutches or brakes are applied. With which is the train in neutral? Find all.
}
ask-tie-up = Which of these combinations tie up?
ask-order = Put these ranges in order, the largest ratio first.
ask-teeth = Give { $set } teeth so that { $range } has the ratio { $about } (exactly { $exact }) and no tooth rule is broken.
ask-given = { $count ->
    [0] { $range }: nothing is applied.
    [one] { $range }: { $elements } is applied.
   *[other] { $range }: { $elements } are applied.
}
# What stands in the place of the names of elements where there are none.
ask-none = nothing applied
ask-way = { $way ->
    [forward] forward, as the input does
    [backward] backward
    [still] it stands still
   *[free] it is free: nothing decides its speed
}
ask-failed = One clutch, brake or one-way clutch has failed, and this is what the ranges have become. Which one is it?
ask-row = { $range } · { $elements }
ask-becomes = { $does ->
    [right] as it should be
    [no-engine-braking] drives as it should, without engine braking
    [engine-braking] drives as it should, with engine braking that should not be
    [lost] neutral: nothing arrives
    [slips] slips
    [drives] drives at { $ratio } instead
    [output-held] the output is held
    [ties-up] tied up
   *[undecided] not decided
}
hint-becomes = { $range }: a fault of { $element } would make something else of it.
hint-no-choice = Choose an answer first.
hint-no-number = Write a number such as 0.25, −1/3 or 2.
hint-no-teeth = Write a whole number of teeth for each gear, from { $least } to { $most }.
hint-no-answer = This train has no answer to that.
hint-not-that = It is not that.
hint-other-way = It turns the other way.
hint-too-slow = The output turns too slowly: the ratio is too large.
hint-too-fast = The output turns too fast: the ratio is too small.
hint-less-fast = The way is right, but it turns slower than that.
hint-more-fast = The way is right, but it turns faster than that.
hint-only-the-way = The size is right; look at the direction again.
hint-reciprocal = That is how often the input turns while this makes one turn; asked is the other way round.
hint-spare = That is the ratio, with more applied than it takes.
hint-changes = { $count ->
    [one] One step is missing: apply or release one clutch or brake.
   *[other] { $count } steps are missing: so many clutches or brakes are to be applied or released.
}
hint-does = { $elements }: { $state ->
    [driving] that drives.
    [neutral] that is neutral.
    [output-held] that holds the output still.
   *[tied-up] that ties up.
}
hint-missing = { $count ->
    [one] One right answer is not picked yet.
   *[other] { $count } right answers are not picked yet.
}
hint-member = The { $member } { $does ->
    [held] is held against the reaction.
    [drives] drives: power goes into the set through it.
    [delivers] delivers: power goes out of the set through it.
    [rests] stands still, but carries no torque.
   *[idles] turns, but carries no torque.
}
hint-look = Look at { $set }: the { $first } { $first-way ->
    [forward] turns forward
    [backward] turns backward
   *[still] stands still
}, the { $second } { $second-way ->
    [forward] turns forward
    [backward] turns backward
   *[still] stands still
}.
hint-look-one = Look at { $set }: the { $first } { $first-way ->
    [forward] turns forward
    [backward] turns backward
   *[still] stands still
}.
hint-compare = Compare { $first } and { $second } again.
hint-back-to-front = It is just the other way round: where the ratio is largest, the output turns slowest.
hint-rule = A tooth rule is broken: { $rule }.
page-panel-exercises = Exercises
# What is said to who has not answered yet.
page-exercise-untouched = { $by ->
    [stage] Nothing is applied yet.
   *[counts] No tooth count is changed yet.
}
page-exercise-note = Questions about the train on stage. What would give the answer away is out of sight until you have answered. The first answer counts in full, a better one after hints half.
page-exercise-kind = Questions
# The kinds by their names in a sheet.
page-exercise-kind-of = { $kind ->
    [mixed] of all kinds
    [reach] reach a ratio
    [members] who holds, drives, delivers
    [direction] which way it turns
    [speed] how fast it turns
    [neutral] find neutral
    [tie-up] spot the tie-up
    [order] order the ranges
    [failed] which element has failed
   *[teeth] choose teeth
}
page-exercise-begin = { $count } questions
page-exercise-fresh = Questions made just now
page-exercise-sheet = The exercise sheet of this train
page-exercise-open = Open an exercise sheet…
page-exercise-place = Question { $at } of { $of }, { $points } { $much ->
    [one] point
   *[other] points
} so far
page-exercise-next = Next question
page-exercise-finish = See the result
page-exercise-stop = Stop
page-exercise-score = { $whole ->
    [yes] Done: { $points } of { $of } points, { $share } %.
   *[no] Stopped: { $points } of { $of } points.
}
page-exercise-results = Question by question
# A question in the list of results; points of one each.
page-exercise-mark = { $mark ->
    [right] Right
    [later] Right, after hints
    [part] Partly right
    [wrong] Not right
    [shown] Answer shown
   *[open] Not answered
}: { $points } { $much ->
    [one] point
   *[other] points
}
page-exercise-answer = Answer: { $answer }
page-exercise-becomes = Has become
page-exercise-check = Check
page-exercise-reveal = Show the answer
page-exercise-shown = That is the answer.{ $stage ->
    [yes] { " " }The train shows it.
   *[no] { "" }
}
page-exercise-still = Until this is answered nothing is applied in the drawing: it would give the answer.
page-exercise-right = Right.
page-exercise-right-later = Right. After hints it counts { $share } %.
page-exercise-part = Partly right: { $share } %.
page-exercise-wrong = Not right.
page-exercise-on-stage = Answer with the clutches and brakes in the drawing, then check.
page-exercise-number = Turns per turn of the input
page-exercise-up = { $what }: one up
page-exercise-down = { $what }: one down
page-exercise-setting = Make an exercise sheet
page-exercise-setting-note = Put questions together from what is on screen. An exercise sheet holds no answers: they are worked out when somebody answers.
page-exercise-set = Set
page-exercise-shaft = Shaft
page-exercise-part-of = Asked for
page-exercise-part-name = { $part ->
    [held] held against the reaction
    [driving] driving
   *[driven] delivering
}
# Where the parts of a question of each kind come from.
page-exercise-from = { $kind ->
    [reach] Asks for the ratio that is on stage now.
    [neutral] Asks for all neutral combinations with as many applied as on stage now.
    [tie-up] Combinations are chosen at random.
    [order] Ranges are shuffled.
    [failed] The fault is chosen at random.
    [teeth] Range, set and ratio are chosen at random, so that there are teeth for it.
   *[chosen] Choose what it asks about.
}
page-exercise-first = { $missing ->
    [ratio] Apply what drives first: a question about a ratio takes it from the stage.
   *[range] To walk through a range, apply it first.
}
page-exercise-add = Add this question
page-exercise-walk-add = Walk through this range first
page-exercise-walk-of = Walkthrough: { $range }
page-exercise-remove = Remove: { $what }
page-exercise-title = Title
page-exercise-untitled = Questions about { $train }
# A line of a sheet that the train has not what it is about, any more or at all.
page-exercise-unasked = { $what } (not of this train as it is now, so left out)
page-exercise-not-added = { $why ->
    [twice] Not added: “{ $what }” is on the exercise sheet already.
    [full-walk] Not added: an exercise sheet walks through { $what } ranges at most.
   *[full] Not added: an exercise sheet holds { $what } questions at most.
}
page-exercise-drop = Empty it
page-exercise-back = Bring back what was there
page-exercise-take = Change the opened exercise sheet
page-exercise-lasts = { $lasts ->
    [yes] This browser keeps the exercise sheet, for this train.
   *[no] This browser does not keep the exercise sheet: save it as a file before you leave the page.
}
page-exercise-aside = Put aside: “{ $title }”{ $named ->
    [yes] , about { $train }
   *[no] { "" }
}, with { $count ->
    [one] one line
   *[other] { $count } lines
}.
page-exercise-again = Go on with it
page-exercise-again-of = Go on with it: { $title }
page-walk-first = First a walkthrough: { $range } ({ $at } of { $of })
page-walk-on = { $to ->
    [range] On to the next range
    [questions] On to the questions
   *[end] Done with it
}
page-walk-again = Show { $range } again
page-walk-through = Walked through.
page-exercise-try = Try it
page-exercise-save = Save as a file
page-exercise-unresumed = Where you were in this exercise sheet is not known any more
page-problem-progress = what was kept is of another exercise sheet, or damaged
page-fix-progress = begin with the first question
page-exercise-find = check the address of the exercise sheet
page-exercise-refused = That cannot be asked of this train
# A lesson in a course system.
page-lesson-begun = { $kept ->
    [yes] The course system keeps where you are.
   *[no] No course system was found, so no score is kept. The lesson works all the same.
}
page-lesson-kept = { $done ->
    [yes] Done, and handed to the course system: { $points } of { $of } points.
   *[no] Handed to the course system so far: { $points } of { $of } points.
}
page-lesson-walked = { $done ->
    [yes] Walked through, and told to the course system.
   *[no] Walked through { $at } of { $of } so far.
}
page-lesson-trouble = The course system did not keep all of it ({ $reason }). Tell whoever runs the course.
page-package = Package for a course system
page-package-note = A lesson as one file, with all that it takes: the walkthrough and the questions of an exercise sheet, about the train on stage and in the language of this page. Course systems that read SCORM open it as it is; for xAPI its files go on a host, and lesson.html among them is opened with the usual parameters.
page-package-sheet = Exercise sheet
page-package-form = For
page-package-pass = Passed from, %
page-package-pass-note = Left empty, the lesson is completed with any score.
page-package-save = Save the package
page-package-busy = Putting it together…
page-package-none = Put an exercise sheet together, or open one, first.
page-package-refused = The package could not be made
page-problem-package = { $file } could not be had ({ $reason })
page-problem-list = it names no files
page-fix-package = check the connection and try again
page-problem-pass = it is no number from 1 to 100
page-fix-pass = write a percentage, or nothing
page-problem-no-pass = a lesson that asks nothing has no score
page-fix-no-pass = leave it empty, or add a question
problem-ratio = { $found } is no ratio
fix-ratio = write it in quotes, as "27/7" or "3.857"
problem-too-many-one-ways = { $found } one-way clutches are more than questions are asked about
fix-fewer-one-ways = ask about a train with at most { $most }
problem-no-answer = this train has no answer to it
fix-no-answer = ask for something that this train can do

## Finding teeth: problems of what is asked

problem-layout-pair = a pair of gears on two axes
fix-layout-pair = use sets that turn about one axis
problem-layout-rows = the sets have { $found } mesh equations together
fix-layout-rows = use fewer or simpler sets, so that there are at most { $most }: a Ravigneaux set has two, any other set one
problem-layout-order = { $found } does not come after { $before }
fix-layout-order = list forward ratios from the largest to the smallest
problem-layout-few-elements = { $elements } clutches and brakes at most, { $applied } of them applied at a time, make { $most } combinations, and { $ranges } ranges are wanted
fix-layout-few-elements = allow more clutches and brakes, apply another number of them, or want fewer ranges
problem-layout-step-ratios = the wanted ratios of ranges { $first } and { $second } are a factor of { $low } to { $high } apart, but the steps between them make { $least } to { $most }
fix-layout-step-ratios = allow other steps, or want other ratios
problem-layout-spread-ratios = a spread of { $found } contradicts the wanted ratios of the first and the last forward range, which make it { $least } to { $most }
problem-layout-spread-steps = a spread of { $found } contradicts the steps between the forward ranges, which make it { $least } to { $most }
fix-layout-spread = leave the spread free, or change what contradicts it
problem-layout-direct = direct drive is wanted, but no forward range may have the ratio 1
fix-layout-direct = want the ratio 1 of one, leave one free, or do not ask for direct drive
problem-layout-empty = with { $applied } elements applied in each range there are { $shafts } shafts, and these sets cannot be joined to so many so that { $elements } clutches and brakes act on all of them
fix-layout-empty = apply fewer at a time, allow more clutches and brakes, or take more sets
problem-ask-nothing = no range is named for which something is wanted
fix-ask-nothing = name a range, and the ratio that it should have
problem-ask-teeth = from { $least } to { $most } is no range of teeth
fix-ask-teeth = write two numbers from { $least } to { $most }, the smaller one first
problem-ask-pinions = there is no number of pinions to choose from, or one that is not allowed
fix-ask-pinions = write numbers from 1 to { $most }
problem-ask-best = nothing says what makes one train better than another
fix-ask-best = name at least one criterion
problem-ask-no-ring = the set "{ $id }" has no ring
problem-ask-no-pair = "{ $id }" is no pair of gears
fix-ask-no-ring = leave it out
fix-ask-twice = name each range once
problem-ask-sets = { $found } sets have teeth to be found
fix-ask-sets = keep the teeth of others, so that 1 to { $most } are left, and ask for a ratio that depends on them
problem-ask-no-cuts = no teeth of { $label } within the bounds keep all rules
fix-ask-no-cuts = allow more teeth or other numbers of pinions, leave out a rule, or keep the teeth of that set
problem-ask-many-cuts = { $label } has too many tooth counts within the bounds to try them all
fix-ask-many-cuts = narrow the bounds, or ask for all rules
problem-ask-ratios = a ratio depends on more sets than are looked for at once
fix-ask-ratios = keep the teeth of some, so that each ratio depends on at most { $most } tooth ratios
problem-ask-no-ratio = "{ $range }" does not drive
problem-ask-only-these = "{ $range }" only drives with the very teeth that the train has
problem-ask-too-long = the ratio of "{ $range }" combines too many sets
fix-ask-leave-out = leave it out, or change what it applies
problem-ask-unreachable = { $range } cannot have the ratio { $wanted } with teeth within the bounds, but only { $least } to { $most }
problem-other-search = this is where another search stood, or one of an older version
fix-other-search = begin anew, or go on with the task that it is of
problem-other-version = another version wrote this, in format { $found } and not { $format }, and divides a search otherwise
fix-other-version = delete it and run the same again with this version
problem-no-mark = the first line does not say of which shard it is
problem-other-task = this is a shard of another task
fix-other-task = merge the shards of one task
problem-other-count = this is one of { $count } shards, and those before are of { $known }
fix-other-count = merge shards of one division
problem-missing-shards = shards are missing: { $shards }
fix-missing-shards = run them, and merge all
problem-ask-spread = the spread, or a step, cannot be { $wanted } with teeth within the bounds, but only { $least } to { $most }
fix-ask-fixed = want that, or leave its field empty: it is the same with all teeth
fix-ask-unreachable = ask for something in between, or allow other teeth
problem-ask-order = where ratios are left free they fall from range to range, but with the wanted ones "{ $first }" cannot have a larger one than "{ $second }"
fix-ask-order = want ratios that fall, or leave a range out
problem-ask-spread-ratios = a spread of { $wanted } contradicts the ratios that are wanted: { $first } over { $last } is { $least } to { $most } with them
problem-ask-steps-ratios = steps that change by a factor of { $wanted } contradict the ratios that are wanted: from { $first } to { $last } it is { $least } to { $most } with them
fix-ask-spread-ratios = leave that empty, or the ratios, or let them be off by more
problem-ask-rings = { $labels } cannot have rings of one size with teeth within the bounds
problem-ask-distances = { $labels } cannot have axes as far apart with teeth within the bounds
fix-ask-rings = allow other teeth, leave one of them out, or do not keep its teeth

## The page: fault finding

page-panel-faults = Fault finding
page-faults-does = What a fault does
page-faults-explains = What explains it
page-faults-first = Fault
page-faults-second = and a second
page-faults-none = none
page-faults-pick = Pick a fault to see what becomes of every range.
# A fault, by itself in a list or in a sentence.
page-faults-fault = { $kind ->
    [will-not-apply] { $part } will not apply
    [will-not-release] { $part } will not release
    [slips] { $part } slips
    [does-not-hold] { $part } does not hold
    [stays-locked] { $part } stays locked
   *[broken-spline] spline of the { $part } broken
}
page-faults-two = { $first }, and { $second }
page-faults-changed = { $faults }: { $count ->
    [one] one range is not as it should be.
   *[other] { $count } ranges are not as they should be.
}
page-faults-stage = The drawings and the other panels go on showing the train with nothing broken.
page-faults-healthy-head = Nothing broken
page-faults-becomes-head = Becomes
page-faults-all-released = All released
# What a range that does not drive does while nothing is broken.
page-faults-healthy = { $does ->
    [neutral] neutral
    [output-held] output held
    [tied-up] tied up
   *[undecided] not decided
}
page-faults-healthy-no-braking = { $ratio }, no engine braking
page-faults-becomes = { $outcome ->
    [right] as it should be
    [no-engine-braking] drives, but without engine braking
    [engine-braking] drives, and brakes the engine too
    [lost] lost: the output is free
    [slips] slips: the input runs up
    [output-held] the output is held
    [ties-up] ties up
   *[undecided] not decided: one-way clutches could settle in more than one way
}
page-faults-drives = drives at { $ratio }
page-faults-drives-as = drives at { $ratio }, as { $range } should
page-faults-seen-head = Observed
page-faults-seen-in = Observed in { $range }
page-faults-untried = not tried
page-faults-seen = { $seen ->
    [right] as it should be
    [lost] no drive
    [slips] slips or flares
    [ties-up] ties up, or holds the output
    [drives] another ratio
    [forward] drives forward
    [backward] drives backward
    [no-engine-braking] no engine braking
   *[engine-braking] brakes the engine
}
page-faults-seen-ratio = ratio { $ratio }
page-faults-clear = Clear what was observed
page-faults-begin = Say what was observed in the ranges that were tried, and which faults explain it is listed here.
page-faults-nothing-wrong = Nothing wrong has been observed yet, so there is nothing to explain.
page-faults-progress = How many single and double faults have been tried
page-faults-found-none = No single or double fault explains all of it.
page-faults-found-single = { $count ->
    [0] No single fault explains all of it.
    [one] One single fault explains all of it.
   *[other] { $count } single faults explain all of it, each by itself.
}
page-faults-found-both = { $count ->
    [0] No pair of faults adds another explanation.
    [one] One pair of faults explains it only together.
   *[other] { $count } pairs of faults explain it only together.
}
page-faults-single = One fault
page-faults-both = Two faults together
page-faults-beside = { $count ->
    [one] One pair of these and another fault that does not show
   *[other] { $count } pairs of one of these and another fault that does not show
}
page-faults-more = { $count ->
    [one] One more
   *[other] { $count } more
}
page-faults-most = { $count ->
    [one] One more is not listed.
   *[other] { $count } more are not listed.
}
page-faults-alike = { $count } that no range tells apart:
page-faults-next = Try { $range } next: it leaves { $left } of { $of } explanations on average, { $most } at most.
page-faults-try = Apply { $range }
page-faults-no-next = No range that is left tells these apart.
page-faults-model = At most two parts are broken at once, and all else is ideal. What slips carries some torque while its sides turn at different speeds; it shows where it has to carry any. A member whose spline is broken turns freely on its shaft.
page-faults-caution = For learning. A real gearbox may protect itself, leave out ranges or hide one fault behind another, and its control is not part of this. Work on a vehicle follows the maker’s service information.

## The page: a shift in time

page-panel-timed = Shift in time
page-drawing-timed = The shift from { $from } to { $to } over time; the numbers below say the same
page-timed-note = Drag the ends of a ramp to command it sooner or later. Release too soon and the input runs away; apply too soon and clutches fight each other.
page-timed-from = From
page-timed-to = To
page-timed-take = what is applied now
page-timed-taken = { $elements }, as it was applied
page-timed-input-speed = Input at the start
page-timed-input-torque = Torque at the input
page-timed-output-torque = Torque from outside at the output
page-timed-until = Time shown
page-timed-cut = Take back engine torque
page-timed-depth = By
page-timed-no-number = there is no number
page-timed-write-number = write one
page-timed-wrong-depth = the part is a number from 1 to 100, in %
page-timed-seconds = { $time } s
page-timed-second = s
page-timed-apply-begins = { $element }: filling begins
page-timed-apply-ends = { $element }: fully applied
page-timed-release-begins = { $element }: release begins
page-timed-release-ends = { $element }: fully released
page-timed-cut-begins = Engine torque: taken back
page-timed-cut-ends = Engine torque: given back
page-timed-time = Time that is read
page-timed-reading = { $time }: input { $input }, output { $output }, { $torque } at the output, { $power } made heat
page-timed-reading-phase = { $time }, { $phase }: input { $input }, output { $output }, { $torque } at the output, { $power } made heat
page-timed-phase = { $phase ->
    [before] before the shift
    [fill] fill
    [torque] torque phase
    [inertia] inertia phase
   *[after] after the shift
}
page-timed-phase-at = { $phase } { $begin } to { $end }
page-timed-on-stage = Play it in both drawings
page-timed-keep = Keep to compare
page-timed-drop-kept = Let go of what is kept
page-timed-undo = Take back the last change
page-timed-hottest = most heat in { $element }: { $heat }
page-timed-most = most
page-timed-usual = Start over
page-timed-all = Speeds of all members
page-timed-bar = The shift in both drawings
page-timed-play = Play slowly
page-timed-pause = Pause
page-timed-back = Back to the plot
page-timed-now = Both drawings show { $shift } at { $time }
page-timed-now-phase = Both drawings show { $shift } at { $time }, { $phase }
page-timed-refused = { $why ->
    [tied-up] What is applied before ties the train up or holds the output: nothing moves that could be shifted. Choose another combination to shift from.
    [unsettled] One-way clutches could settle in several ways before it, or in none. Choose another combination to shift from.
   *[undecided] Inertias or torques differ too much from each other to say what happens next. Bring them nearer to each other in the file.
}
page-timed-clean = Neither flare nor tie-up.
page-timed-slight = Hardly any flare or tie-up: less than 1 % of the speed and 5 % of the torque at the input.
page-timed-flares = Flare: the input runs faster than either range would have it. Release later, or apply sooner.
page-timed-binds = { $count ->
    [one] Tie-up: { $elements } carries against the torque of its range. Release sooner, or apply later.
   *[other] Tie-up: { $elements } carry against the torques of their ranges. Release sooner, or apply later.
}
page-timed-unsettled = In the time shown not all holds that is to hold. Show more time, or see whether it can carry that much.
page-timed-figures = What the shift costs
page-timed-both = With both, moving a ramp trades one for the other: try ramps of other lengths, or take engine torque back.
page-timed-figure = Figure
page-timed-this = This shift
page-timed-kept-head = Kept
page-timed-with-unit = { $figure } ({ $unit })
page-timed-duration = Duration, from the first command until all holds
page-timed-flare = Flare, at most
page-timed-bind = Tie-up, torque at most
page-timed-drop = Drop of output torque below both ranges
page-timed-jerk = Greatest jerk of the output, as a mean over 20 ms
page-timed-jerk-unit = rad/s³
page-timed-heat = { $element }: heat
page-timed-peak = { $element }: peak power
page-timed-slips = { $element }: slips for
page-timed-input = Energy put in at the input
page-timed-output = Energy taken at the output
page-timed-stored = Energy stored in turning masses
page-timed-heats = Energy made heat
page-timed-map = Sooner or later
page-timed-map-note = Each mark is this shift with another timing; the larger it is, the more heat. Press one to command it. Where one takes long to reckon, fewer are tried.
page-timed-map-begin = Try a thousand timings
page-timed-map-keys = Timings; arrows choose, Enter commands
page-drawing-timings = What comes of releasing and applying sooner or later; the line below says it of one timing
page-timed-map-at = Release at { $release }, filling at { $apply }: flare { $flare }, tie-up { $bind }, heat { $heat }
page-timed-map-refused = Release at { $release }, filling at { $apply }: not decided
page-timed-joule = { $heat } J
page-timed-known = What is known of the train, and what is assumed
page-timed-known-note = What a scenario file leaves out of its field “dynamics” is assumed. What is typed here is stated there, and can be undone.
page-timed-value = Value
page-timed-source = Source
page-timed-assumed = assumed
page-timed-from-file = from the file
page-timed-engine-inertia = Inertia of the engine
page-timed-load-inertia = Inertia of what the output drives
page-timed-shaft-inertia = Inertia of { $shaft }
page-timed-fill-time = Fill time of { $element }
page-timed-full-torque = Torque of { $element } at full command
page-timed-caution = For learning and early layout: friction is ideal, members are rigid and without loss, torques at input and output stay as they are, and much is assumed. What a clutch bears, and how a real transmission is to shift, the maker’s data and qualified people decide.

## The page: sources and outputs

page-panel-sources = Sources and outputs
page-drawing-sources-levers = Levers of { $train }, whose nodes can be turned by hand
page-sources-grips = Members that can be turned: up is forward
page-sources-note = Drag a node up or down, or use its arrow keys. What is kept stays, everything else follows along the levers. Gears are ideal here, without losses or inertia.
page-sources-bar = What the drawings show by hand
page-sources-shown = By hand: { $given }
page-sources-back = Back to the input alone
page-sources-to-panel = To the numbers
page-sources-on-shaft = on { $shaft }
page-sources-both-names = { $label } ({ $shaft })
page-sources-all-kept = As many speeds are kept as decide all others, so nothing can be turned: { $kept }. No longer keep one of them.
page-sources-wrong = { $name }, { $what }: a number from −{ $to } to { $to } is needed. Until then the last one counts.
page-sources-limits-title = Change the limits
page-sources-limits-of = Limits of { $name }
page-sources-most-of = { $limit ->
    [speed] Highest speed
    [torque] Greatest torque
    [power] Greatest power
   *[efficiency] Efficiency
  }
page-stated-assume = assume it
page-stated-assume-this = Assume it again: { $name }
page-stated-none = without limit
page-sources-caution = Limits and efficiencies are those of the file, or assumed; real ones depend on temperature, time and voltage. Whether a machine may run at a point is for its maker’s data and qualified people to decide.
page-sources-freedom = { $count ->
    [0] Nothing can turn: what is applied holds everything.
    [one] One speed decides all others. Given: { $given }.
   *[other] { $count } speeds decide all others. Given: { $given }.
  }
# $name: a shaft; $by: what decides its speed
page-sources-decided = { $name } is decided by { $by }. To turn it, no longer keep one of them.
page-sources-held = { $name } is held, and cannot be turned.
page-sources-release = Release some of what is applied on the stage to choose more: { $elements }.
page-sources-numbers = Numbers of this plot
page-sources-least = Least torque
page-sources-most = Most torque
page-sources-keep = Keep this speed
page-sources-speed = Speed
page-sources-torque = Torque
page-sources-power = Power
page-sources-delivers = Delivers
page-sources-speed-of = Speed of { $name }
page-sources-torque-of = Torque of { $name }
page-sources-kind = { $kind ->
    [engine] engine
    [motor] motor
    [output] output
   *[further] further output
  }
page-sources-does = { $does ->
    [feeds] feeds the train with { $power }
    [fed] takes { $power } from the train
    [still] no power: it stands still
   *[idle] carries no torque
  }
page-sources-limit = { $limit ->
    [speed] speed
    [torque] torque
    [power] power
   *[efficiency] efficiency
  }
page-sources-beyond = Beyond its limits: { $limits }
page-sources-limits = At most { $limits }.
page-sources-efficiency = efficiency { $part }
page-sources-assumed = Assumed: { $what }.
page-sources-balance = Without a battery: the motors balance each other
page-sources-electric = { $way ->
    [takes] The motors take { $power } from a battery.
    [gives] The motors give { $power } to a battery.
   *[none] The electric powers of the motors add up to nothing.
  }
page-sources-members = Speeds of all members
page-sources-member = Member
page-sources-by-speeds = By the given speeds
page-sources-is-kept = given, and kept
page-sources-is-given = given
page-sources-is-held = held
page-sources-is-balanced = as the motors balance each other
page-sources-torques = Torques and powers
page-sources-at = At
page-sources-by-torques = By the given torques
page-sources-no-torque = none
page-sources-undecided = not decided: more is applied than needed
page-sources-standstills = Where something stands still
page-sources-ratio = Output speed / input speed
page-sources-mechanical = no power through it: all of it goes through gears
page-sources-region = What the output can do
page-sources-across = Output speed, { $unit }
page-sources-up = Output torque, { $unit }
page-sources-within = Within all limits
page-sources-now = Now
page-sources-region-note = The other given speeds stay: { $given }. Solved at { $count } speeds, drawn straight in between.
# $name: a source
page-sources-no-region = { $why ->
    [held] The output is held.
    [free] The given speeds leave { $name } free.
    [too-fast] At the given speeds { $name } is beyond its highest speed, whatever the output does.
    [empty] No speed of the output keeps all sources within theirs.
   *[unlimited] The sources do not limit the torque at one output while another may take any.
  }
page-sources-shares = Where the input’s power goes
page-sources-share = Power / input power
page-sources-out-of-in = Output / input
# $name: a source or an output
page-sources-rests = { $name } at rest
page-sources-no-shares = { $why ->
    [freedom] For this, input and output must decide all speeds with two degrees of freedom.
    [torques] For this, at most two motors may share what is left open.
   *[idle] The input carries no torque.
  }
page-sources-shares-note = { $balanced ->
    [true] Above zero what feeds the train, below zero what it feeds. The motors balance each other at their efficiencies.
   *[false] Above zero what feeds the train, below zero what it feeds, at the same power of the input.
  }

## The page: shifts

page-panel-shifts = Shifts
page-drawing-shifts = Shifts of { $train }: what drives, over its ratio, and the single swaps between; the tables say the same
page-shifts-nodes = Combinations that drive, in the order of their ratios
page-shifts-note = In a single swap one clutch or brake is released while one is applied; or one alone is, where a one-way clutch does the rest. Press a range or a circle to apply it.
page-shifts-count = { $count ->
    [one] One combination drives with nothing to spare.
   *[other] { $count } combinations drive with nothing to spare.
}
page-shifts-some = Shown are the ranges, what a single swap makes of them, and the chain.
page-shifts-all = Show all that drive
page-shifts-progress = How many combinations have been looked at
page-shifts-node = { $elements }, ratio { $ratio }
page-shifts-node-named = { $ranges }: { $elements }, ratio { $ratio }
page-shifts-between = Shifts between the ranges
page-shifts-from = From
page-shifts-from-all = any range
page-shifts-singles = { $singles } of { $all } shifts between forward ranges are single swaps; of those to the next range { $next } of { $neighbours }.
page-shifts-shift-head = Shift
page-shifts-pair = { $from } → { $to }
page-shifts-kind-head = Swap
page-shifts-kind = { $kind ->
    [same] none
    [alone] one alone
    [single] single
    [double] double
   *[more] more
}
page-shifts-released = Released
page-shifts-applied = Applied
page-shifts-step = Step
page-shifts-no-ranges = Fewer than two named ranges drive.
page-shifts-chains = Ranges it could have
page-shifts-chains-note = The longest chains of forward combinations, each a single swap from the next: most ranges first, then those whose steps vary least. That they shift without effort is not all that ranges need.
page-shifts-least = Least step
page-shifts-most = Largest step
page-shifts-ranges = At most so many ranges
page-shifts-chain-head = Chain
page-shifts-chain = { $count ->
    [one] One range
   *[other] { $count } ranges
}
page-shifts-chain-named = { $chain }, all named
page-shifts-ratios-head = Ratios
page-shifts-steps-head = Steps
page-shifts-steps = { $least } to { $most }
page-shifts-spread = Spread
page-shifts-no-chain = No two forward combinations are a single swap and such a step apart.
page-shifts-too-many = There are too many chains to compare them all. Narrow the steps, or ask for fewer ranges.
page-shifts-chosen = The chain marked in the drawing
page-shifts-elements-head = Elements
page-shifts-number-head = Range
page-shifts-take = Make these the ranges
page-shifts-take-note = They take the place of all named ranges that drive forwards; the editor’s Undo brings those back.

## The page: finding teeth

page-panel-find = Find teeth
page-find-note = Write the ratios that you want; what is left empty is free. All teeth within the bounds are looked through, and those that no others beat are listed.
page-find-none = No range of this train drives, so that no ratio can be wanted.
page-panel-layouts = Find layouts
page-layouts-note = Says how sets can be joined, and where clutches and brakes can sit, so that the ranges have the wanted ratios with real teeth. Everything within these bounds is looked at.
page-layouts-sets = Sets
page-layouts-set = Set { $number }
page-layouts-no-set = none
page-layouts-applied = Applied in each range
page-layouts-elements = Clutches and brakes, at most
page-layouts-clutches = Clutches, at most
page-layouts-brakes = Brakes, at most
page-layouts-ranges = Forward ranges
page-layouts-ratios = Wanted ratios, the largest first; an empty field takes any
page-layouts-ratio-of = Wanted ratio of range { $range }
page-layouts-backward = Backward
page-layouts-has-backward = with a backward range
page-layouts-range = range { $range }
page-layouts-backward-range = backward range
page-layouts-spread = Spread
page-layouts-step = Step from range to range
page-layouts-shifts = Shifts
page-layouts-swaps = neighbours differ by a single swap
page-layouts-direct = Direct drive
page-layouts-direct-is = { $direct ->
    [with] one range must be direct
    [without] no range may be direct
   *[other] either way
}
page-layouts-opened = It is on the stage, as a train of your own; the one before is still in the list of trains.
page-layouts-order = In the order of
page-layouts-order-is = { $order ->
    [error] how far ratios are off
    [elements] number of clutches and brakes
    [efficiency] efficiency
    [size] largest ring
    [spread] spread
   *[other] evenness of steps
}
page-layouts-begin = Find layouts
page-layouts-more = Show more
page-layouts-open = Open on the stage
page-layouts-chart = Ranges of this layout
page-layouts-on = Applied
page-layouts-ratio = Ratio
page-layouts-facts = Off by { $error } % · spread { $spread } · clutches: { $clutches }, brakes: { $brakes } · largest ring { $size } · lowest efficiency { $efficiency } %
page-layouts-unended = Not all teeth were tried for it.
page-layouts-undecided = Whether its shafts nest is not decided.
page-layouts-covered = { $frames } ways of joining the sets; { $layouts } layouts could have such ratios, of which { $useless } cannot be built or have an element to spare and { $toothless } have no teeth for them.
page-layouts-given-up = { $number } ways of joining the sets have more choices than were tried, and { $unended } layouts more teeth: something may be missed. Ask for fewer ranges, elements or sets, or a smaller tolerance.
page-layouts-unreached = Whatever the teeth within the bounds, no way of joining the sets gives such a ratio to: { $ranges }.
page-layouts-goes = { $percent } % looked through, by { $workers } at once; { $number } found so far.
page-layouts-ahead = About { $frames } ways of joining the sets; by a sample of them very roughly { $time } here.
page-layouts-long = Paused: there are about { $frames } ways of joining the sets. By a sample of them that takes very roughly { $time } here; it may be several times that, or a part of it. Ask for fewer sets, elements or ranges, or narrower ratios, go on all the same, or run it elsewhere.
page-layouts-stood = A search for layouts was { $percent } % through when its tab was closed.
page-layouts-done = { $count ->
    [0] All looked at: no layout has such ratios. Allow more elements, a larger tolerance, other teeth or other sets.
    [one] All looked at: one layout.
   *[other] All looked at: { $number } layouts.
}
page-layouts-full = All looked at: more layouts than are kept; these are the best { $number }.
page-find-asked = What is wanted
page-find-wanted = Wanted ratios
page-find-now = Now
page-find-ratio = Wanted
page-find-ratio-of = Wanted ratio of { $label }
page-find-tolerance = May be off by, in %
page-find-teeth = Teeth of suns and rings
page-find-pinion-teeth = Teeth of pinions
page-find-least = { $what }, fewest
page-find-most = { $what }, most
page-find-to = to
page-find-counts = Pinions in a set
page-find-best = What makes a train better
page-find-criterion = { $criterion ->
    [error] Ratios as wanted
    [steps] Even steps
    [size] A small largest ring
    [efficiency] High efficiency
   *[pinion-speed] Slow pinions
}
page-find-more = Rules, sets and limits
page-find-rules = Rules that must hold
page-find-rule = { $rule ->
    [coaxial] Pins reach sun and ring
    [equal-spacing] Pinions at equal angles
    [neighbours-clear] Pinions do not touch
   *[fewest-teeth] No gear under 12 teeth
}
page-find-keep = Keep the teeth of
page-find-ring = Rings with as many teeth
page-find-distance = Pairs with axes as far apart (one module)
page-find-spread = Spread: first forward ratio over the last
page-find-steps = Each step over the next; 1 is even steps
page-find-least-efficiency = Least efficiency, in %
page-find-efficient-ranges = Least efficiency holds in
page-find-most-pinion = Fastest pinion, times the input speed
page-find-most-open = Fastest open clutch or brake, times the input speed
page-find-begin = Find teeth
page-find-rest = Pause
page-find-go-on = Go on
page-find-stop = Stop
page-find-progress = How much of it has been looked through
page-find-begins = Looking…
page-find-rests = Paused.
page-find-stopped = Stopped: not all was looked through, and there may be better ones than those listed.
page-find-goes = { $percent } % looked through, by { $workers } at once; { $number } found so far.
page-find-done = { $count ->
    [0] All was looked through: there are no such teeth within the bounds.
    [one] All was looked through: one train beats all others.
   *[other] All was looked through: { $number } trains that no other beats.
}
page-find-full = Ended early, not all was looked through: too many trains beat each other in something ({ $number } so far). Choose less that makes a train better, or let ratios be off by less.
page-find-ahead = { $candidates } candidates; about { $boxes } boxes of them to look at: about { $time } here, or less.
page-find-long = Paused: { $candidates } candidates, about { $boxes } boxes of them to look at. That takes about { $time } here, or less where finds cut off others. Narrow the bounds or the tolerance, go on all the same, or run it elsewhere.
page-find-elsewhere = Save the task, and run it on the command line: whole, or as shards on as many machines as there are, whose files are then merged. An interrupted run goes on where it stood.
page-find-task = Save the task
page-find-stood = A search of this train was { $percent } % through when its tab was closed.
page-find-resume = Go on with it
page-find-plot = What was found, by two measures
page-find-plot-note = Press a point to see its train on the stage; with keys, arrows go from point to point and Enter chooses.
page-find-points = Points of the plot
page-find-across = To the right
page-find-up = Upwards
page-find-covered = { $all } candidates: { $outside } cut off as none of theirs has such ratios, { $beaten } as none can beat what was found, { $tried } tried one by one.
page-find-found = Teeth that were found
page-find-teeth-head = Teeth
page-find-teeth-note = Teeth are told from the middle outwards, sun/pinions/ring; × says how many pinions.
page-find-column = { $criterion ->
    [error] Off by, %
    [steps] Steps uneven, %
    [size] Largest ring
    [efficiency] Least η, %
    [pinion-speed] Fastest pinion ×input
   *[open-speed] Fastest open ×input
}
page-find-rows = The first { $most } of { $all } are listed.
page-find-all = All measures
page-find-wider = Look again within { $percent } %
page-find-nearest = Widen until something is found
page-find-blocking = Looking which of the wishes is in the way…
page-find-blocking-single = { $count ->
    [one] Without this wish there would be some: { $wishes }.
   *[other] Without any one of these wishes there would be some: { $wishes }.
}
page-find-blocking-together = { $count ->
    [one] Leaving out a single wish is not enough. This one cannot be met, even without the others: { $wishes }.
   *[other] Leaving out a single wish is not enough. These cannot be met together, even without the others: { $wishes }.
}
page-find-wish = { $wish ->
    [efficiency] least efficiency
    [pinion_speed] fastest pinion
    [open_speed] fastest open element
    [spread] spread
    [steps] steps
    [step] bounds of steps
    [direct] direct drive
   *[single_swaps] single swaps
}
page-find-pace = { $rate } candidates a second; about { $time } left, or less.
page-layouts-pace = { $rate } ways of joining a second; very roughly { $time } left.
page-find-wrong-tolerance = How far ratios may be off is a number from 0 to { $most }, in %.
page-find-wrong-efficiency = The least efficiency is a number from 0 to 100, in %: write one, or leave the field empty.
page-find-try = Press a row or a point to have its train on the stage as a trial.
page-find-tried = On the stage as a trial, beside what was there before.
page-find-take = Keep it
page-find-back = Back to what was
page-find-before = { $train }, before
