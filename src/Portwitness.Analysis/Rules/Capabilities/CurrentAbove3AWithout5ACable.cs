using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.PdpRules;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>More than 3 A is offered over a cable that carries 3 A.</summary>
public sealed class CurrentAbove3AWithout5ACable : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "current-above-3a-without-5a-cable",
        Severity = Severity.Violation,
        Title = "More than 3 A is offered without a 5 A cable",
        Clause = "R3.2v1.1 4.4",
        Why = "A source asks the cable before it offers more than 3 A. Without a 5 A marker the cable may overheat.",
        Evidence = "Which cable was used: its own answer, the capture's header, or the product file.",
        Example = new ListExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "20 V is offered with 3.25 A; the cable is not known."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        if (!list.IsSource || list.Evidence.CableCarries5A || list.Evidence.Cable == CableEvidence.Captive)
        {
            return;
        }

        // An EPR list says what the source is designed for; asked for in SPR mode, it is no offer yet (6.5.15).
        bool isOffer = !list.IsEpr || list.InEprMode == true;
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.MaximumCurrent() is { } current
                && current.Milliamperes > PowerRules.PlainCableMilliamperes
                && current.Milliamperes <= PowerRules.ConnectorMilliamperes)
            {
                bool known = list.Evidence.Cable == CableEvidence.ThreeAmpere && isOffer;
                hits.Report(this, new Hit(
                    known ? Verdict.Fails : Verdict.CannotTell,
                    known
                        ? Phrase.Of($"{offered} is offered although the cable carries 3 A.")
                        : list.Evidence.Cable == CableEvidence.ThreeAmpere
                            ? Phrase.Of($"{offered} needs a 5 A cable; the list may say what the source could give over one.")
                            : $"{offered} needs a 5 A cable; the capture does not show which cable was used.")
                {
                    Position = offered.Position,
                    Expected = "at most 3 A, or a cable whose marker says 5 A",
                    Observed = $"{current}",
                    NextStep = known
                        ? null
                        : list.IsReadOff ? "State \"cable: captive\" under \"ports:\" where the cable is fixed; otherwise capture the cable's answer to Discover Identity."
                        : "State the cable in the capture's header, or capture the cable's answer to Discover Identity.",
                });
                return;
            }
        }
    }
}
