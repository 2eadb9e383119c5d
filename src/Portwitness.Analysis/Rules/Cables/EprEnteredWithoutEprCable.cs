using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Rules.Cables;

/// <summary>EPR mode is entered over a cable that did not say it is made for it.</summary>
public sealed class EprEnteredWithoutEprCable : CableRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "epr-entered-without-epr-cable",
        Severity = Severity.Violation,
        Title = "EPR mode is entered without an EPR cable",
        Clause = "R3.2v1.1 6.4.10.1",
        Why = "EPR mode puts 28 to 48 V on the cable. Only a cable whose marker says 50 V, 5 A and EPR is built so that its "
            + "contacts do not arc; another one can be damaged when it is pulled out.",
        Evidence = "The attach, and an instrument that records SOP'; or the marker's answer.",
        Editions = Editions.R31 | Editions.R32,
        Example = new ScriptExample(
            """
            cable: 5A detachable
            source: [5V 3A epr, 9V 3A, 15V 3A, 20V 5A, 28V 5A, EPR AVS 15-28V 140W]
            steps:
              - attach
              - discover-cable
              - advertise
              - contract 4 at 5A epr
              - send sink EPR_Mode 0x018C0000
              - send source EPR_Mode 0x02000000
              - send source EPR_Mode 0x03000000
            """,
            "The marker says 5 A and nothing of 50 V and EPR; the source enters EPR mode."),
        Category = RuleCategory.Cables,
    };

    /// <inheritdoc/>
    public override void Check(CableCase seen, IHitSink hits)
    {
        if (seen.Moment != CableMoment.EprEntered || seen.Captive || seen.Answer is { SuitsEpr: true })
        {
            return;
        }

        bool statedOther = seen.Stated is { Epr: false } or { CurrentMilliamperes: 3000 };
        if (seen.Answer is null && seen.RecordsSopPrime == false && !statedOther)
        {
            return;
        }

        // A marker of R2.0 has no EPR bit, and may have been asked in the words of R2.0; one that calls itself captive may be the source's own.
        bool proved = seen.Answer is { } answer
            ? answer.IsR3 && answer.IsCable && !answer.SaysCaptive
            : seen.SinceAttach && seen.RecordsSopPrime == true && seen.Inquiry != CableInquiry.Unclear;
        hits.Report(this, new Hit(proved ? Verdict.Fails : Verdict.CannotTell, Detail(seen, statedOther))
        {
            Expected = "a marker that says 50 V, 5 A and EPR",
            Observed = seen.Answer is { } said ? Phrase.Of($"a marker without {said.LackedForEpr()}")
                : seen.Inquiry == CableInquiry.NotAsked ? "not asked"
                : "no identity",
            NextStep = proved ? null : CaptureTheQuestion,
        });
    }

    private static Phrase Detail(CableCase seen, bool statedOther) => seen switch
    {
        { Answer: { IsR3: false } } => "EPR mode was entered; the marker answered in the words of R2.0, which have no EPR bit.",
        { Answer: { } answer } => Phrase.Of($"EPR mode was entered although the cable's marker lacks {answer.LackedForEpr()}."),
        _ when statedOther => "EPR mode was entered although the capture's header says that the cable is not for it; no marker was seen.",
        { SinceAttach: true, RecordsSopPrime: true, Inquiry: CableInquiry.NotAsked } =>
            "EPR mode was entered, and since the attach the cable was not asked.",
        { SinceAttach: true, RecordsSopPrime: true, Inquiry: CableInquiry.Unanswered } =>
            "EPR mode was entered although the cable did not answer.",
        _ => "EPR mode was entered; the capture does not show what the cable's marker says.",
    };
}
