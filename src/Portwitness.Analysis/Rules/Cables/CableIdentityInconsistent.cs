using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Analysis.Rules.Cables;

/// <summary>A cable's marker contradicts itself, the other plug, or what is stated of the cable.</summary>
public sealed class CableIdentityInconsistent : CableRule
{
    private const string UseAnother = "Capture again with another cable; this one's word cannot be relied on.";
    private const string CheckTheHeader = "Look at the cable, and correct the capture's header or take another cable.";

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "cable-identity-inconsistent",
        Severity = Severity.Caution,
        Title = "The cable's marker contradicts itself or what is stated",
        Clause = "R3.2v1.1 Tables 6.33, 6.41 and 6.42, Figure 6.16",
        Why = "What a charger offers depends on what the cable says of itself. A marker that contradicts itself is the cable's "
            + "fault and not the charger's, so it never makes a product fail; but the capture must be taken again with another cable.",
        Evidence = "The marker's answer to Discover Identity. Of a marker of R2.0 neither voltage nor EPR is read: it has no such fields.",
        Example = new ScriptExample(
            """
            source: [5V 3A]
            steps: [attach, raw cable SOP' 8F51 41A000FF 00006018 00000000 00000000 20200A11, advertise]
            """,
            "The marker has the EPR bit, but 20 V and 3 A."),
        Category = RuleCategory.Cables,
    };

    /// <inheritdoc/>
    public override void Check(CableCase seen, IHitSink hits)
    {
        if (seen.Moment != CableMoment.Answer || seen.Answer is not { } answer)
        {
            return;
        }

        CheckKind(answer, hits);
        if (answer.Vdo is not null)
        {
            CheckFields(answer, hits);
        }

        CheckStated(answer, seen.Stated, hits);
        CheckBefore(answer, seen.Before, hits);
    }

    private void CheckKind(CableAnswer answer, IHitSink hits)
    {
        int expected = answer.Id.ProductTypeCode == CableAnswer.Active && answer.IsR3 ? 6 : 5;
        if (!answer.IsCable && answer.Id.ProductTypeCode != CableAnswer.VconnPoweredDevice)
        {
            Note(hits, "The answer names no kind of cable (Table 6.33).", "passive cable, active cable or VCONN-powered device",
                $"{answer.Id.ProductTypeName(answer.Sop)}");
        }
        else if (answer.IsCable && answer.Vdo is null)
        {
            Doubt(hits, "The answer ends before it says what the cable carries.", $"{expected} objects", $"{answer.Objects}");
        }
        else if (answer.IsCable && answer.Objects != expected)
        {
            Note(hits, $"An answer of {answer.Id.ProductTypeName(answer.Sop)} has {expected} objects (counted from Figure 6.16).",
                $"{expected} objects", $"{answer.Objects}");
        }
    }

    private void CheckFields(CableAnswer answer, IHitSink hits)
    {
        var vdo = answer.Vdo!.Value;
        bool active = answer.Id.ProductTypeCode == CableAnswer.Active;
        if (!answer.IsR3)
        {
            // Code 0 is default USB power in R2.0 (from memory).
            if (vdo.CurrentCode == 3)
            {
                Note(hits, "The marker's current has a reserved code.", "3 A or 5 A", "code 3");
            }

            return;
        }

        if (answer.CarriesVbus && vdo.MaximumCurrent is null)
        {
            Doubt(hits, "The marker's current has an invalid code; a source must take the cable for a 3 A one.",
                "code 1 (3 A) or 2 (5 A)", $"code {vdo.CurrentCode}");
        }

        if (vdo.EprCapable && !answer.SuitsEpr)
        {
            Doubt(hits, "The marker says EPR, but not all that EPR needs.", "50 V and 5 A with the EPR bit",
                $"the EPR bit without {answer.LackedForEpr()}");
        }

        if (vdo.MaximumVbusCode is 1 or 2)
        {
            Note(hits, "The marker's voltage has a deprecated code; it counts as 20 V.", "code 0 (20 V) or 3 (50 V)",
                $"code {vdo.MaximumVbusCode}");
        }

        if (vdo.PlugCode is 0 or 1)
        {
            Note(hits, "The marker's plug has a reserved code.", "code 2 (USB Type-C) or 3 (captive)", $"code {vdo.PlugCode}");
        }

        if (vdo.TerminationCode > 1 != active)
        {
            Note(hits, $"The termination is not one of {(active ? "an active" : "a passive")} cable.",
                active ? "code 2 or 3" : "code 0 or 1", $"code {vdo.TerminationCode}");
        }
    }

    private void CheckStated(CableAnswer answer, CaptureCable? stated, IHitSink hits)
    {
        if (stated?.CurrentMilliamperes is { } milliamperes && answer.Current is { } current
            && current.Milliamperes != milliamperes)
        {
            Doubt(hits, "Header and marker disagree on the cable's current; the marker is believed.", $"{milliamperes / 1000} A, as stated",
                $"{current}", CheckTheHeader);
        }

        if (stated?.Epr is { } epr && answer is { IsR3: true, Vdo: not null } && epr != answer.SuitsEpr)
        {
            Doubt(hits, "Header and marker disagree on EPR; the marker is believed.", epr ? "an EPR cable, as stated" : "no EPR cable, as stated",
                answer.SuitsEpr ? "50 V, 5 A and EPR" : Phrase.Of($"a marker without {answer.LackedForEpr()}"), CheckTheHeader);
        }

        if (stated?.Captive is { } captive && answer.IsR3 && answer.Vdo is { PlugCode: 2 or 3 } && captive != answer.SaysCaptive)
        {
            Note(hits, "Header and marker disagree on whether the cable is fixed to a product.",
                captive ? "captive, as stated" : "detachable, as stated", answer.SaysCaptive ? "captive" : "USB Type-C plug");
        }
    }

    private void CheckBefore(CableAnswer answer, CableAnswer? before, IHitSink hits)
    {
        if (before is null || before.IsR3 != answer.IsR3 || before.Vdo is not { } first || answer.Vdo is not { } second)
        {
            return;
        }

        Phrase was = Said(before);
        Phrase now = Said(answer);
        if (was != now)
        {
            Doubt(hits, before.Sop == answer.Sop
                ? "The same plug answers differently without having been detached."
                : "The two plugs of the cable say different things.", was, now);
        }

        if (answer.Sop == SopKind.SopDoublePrime && answer.IsR3 && answer.Id.ProductTypeCode == CableAnswer.Active
            && before.Sop == SopKind.SopPrime
            && (first.Raw & PowerDelivery.VendorDefined.ActiveCableVdo1.SopDoublePrimeField.Mask) == 0)
        {
            Note(hits, "A plug answers on SOP'' although the marker says that there is none.", "no answer on SOP''", $"0x{second.Raw:X8}");
        }
    }

    private static Phrase Said(CableAnswer answer) =>
        Phrase.Of($"{answer.Id.ProductTypeName(answer.Sop)}, {(answer.Current is { } current ? Phrase.Of($"{current}") : "no current")}")
        + (answer.IsR3 ? Phrase.Of($", {answer.Vdo!.Value.MaximumVbus}{(answer.Vdo.Value.EprCapable ? Phrase.Of(", EPR") : "")}") : "")
        + $", vendor 0x{answer.Id.VendorId:X4}";

    private void Doubt(IHitSink hits, Phrase detail, Phrase expected, Phrase observed, string? nextStep = UseAnother) => hits.Report(
        this, new Hit(Verdict.CannotTell, detail) { Expected = expected, Observed = observed, NextStep = nextStep });

    private void Note(IHitSink hits, Phrase detail, Phrase expected, Phrase observed) => hits.Report(
        this, new Hit(Verdict.CannotTell, detail) { Expected = expected, Observed = observed, IsNote = true });
}
