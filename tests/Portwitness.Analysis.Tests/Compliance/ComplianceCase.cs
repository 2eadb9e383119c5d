using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Testing.Compliance;

namespace Portwitness.Analysis.Tests.Compliance;

/// <summary>A compliant source and what a bench knows of it; says which cautions that lack of knowledge explains.</summary>
public sealed record ComplianceCase(CompliantSource Source, string Knows, SourceEvidence Evidence, bool AfterContract)
{
    /// <summary>The same source with more and less known of it.</summary>
    public static IEnumerable<ComplianceCase> Of(CompliantSource source)
    {
        bool plain = source.CableMilliamperes == 3000;
        SourceEvidence all = new()
        {
            Editions = source.Edition,
            Cable = plain ? CableEvidence.ThreeAmpere : source.IsEpr ? CableEvidence.Epr : CableEvidence.FiveAmpere,
            Sharing = source.IsReduced ? PowerSharing.InUse : PowerSharing.None,
            Pdp = Power.FromMilliwatts(source.Maximum),
            PdpBasis = source.Maximum % 1000 == 0 && source.Maximum >= 10_000 ? PdpBasis.Declared : PdpBasis.Printed,
        };
        yield return new(source, "everything", all, true);
        yield return new(source, "no rating", all with { Pdp = null, PdpBasis = PdpBasis.None }, true);
        yield return new(source, "no cable", all with { Cable = CableEvidence.Unknown }, true);
        yield return new(source, "no edition", all with { Editions = EditionNames.FromRevisionCode(source.Edition == Editions.R20 ? 1 : 2) }, true);
        yield return new(source, "several ports, no contract yet", all with { Sharing = PowerSharing.Possible }, false);
        yield return new(source, "nothing", new SourceEvidence(), false);
        if (!plain)
        {
            yield return new(source, "a captive cable", all with { Cable = CableEvidence.Captive }, true);
        }
    }

    /// <summary>What the rules report of one of the source's lists.</summary>
    public IReadOnlyList<Finding> Check(MessageKind kind, IReadOnlyList<uint> words, bool? inEprMode = null)
    {
        FindingLog log = new() { File = "compliance" };
        int revision = Source.Edition == Editions.R20 ? 1 : 2;
        MessageHeader header = MessageHeader.Create(
            kind, kind == MessageKind.SourceCapabilities ? Math.Min(words.Count, 7) : 0, 0, true, true, revision);
        Advertisement list = new(
            0, 1, kind, header, ushort.MaxValue, [.. words.Select((word, index) => new OfferedObject(index + 1, word, uint.MaxValue))],
            [], 0, null, PdpBasis.None)
        {
            InEprMode = inEprMode,
            AfterContract = AfterContract,
        };
        CapabilityChecker.Check(list, Evidence, RuleSet.OfCaptures, log);
        return log.Findings;
    }

    /// <summary>Findings that are wrong: every accusation, and cautions that nothing explains.</summary>
    public IEnumerable<Finding> Wrong(IEnumerable<Finding> findings)
    {
        HashSet<string> explained = Explained();
        return findings.Where(finding => finding.Severity is Severity.Violation or Severity.Mismatch
            || (finding.Severity == Severity.Caution && !explained.Contains(finding.Rule)));
    }

    private HashSet<string> Explained()
    {
        HashSet<string> rules = [];
        if (Evidence.Cable == CableEvidence.Unknown)
        {
            rules.UnionWith(["current-above-3a-without-5a-cable", "normative-current-too-low", "pps-current-too-low"]);
        }

        // An EPR list of a source that has a 3 A cable tells what it could do over another.
        if (Source.IsEpr && Source.CableMilliamperes == 3000)
        {
            rules.Add("current-above-3a-without-5a-cable");
        }

        // What R3.2 asks for, older sources need not.
        if (Source.Edition != Editions.R32 && (Evidence.Editions & Editions.R32) != 0)
        {
            rules.UnionWith(["optional-voltage-above-9v", "pps-range-not-standard"]);
        }

        // A port that may be reduced, or may not be: which it is cannot be seen.
        if (Source.IsReduced && Evidence.Sharing != PowerSharing.InUse)
        {
            rules.UnionWith(
            [
                "normative-voltage-missing", "normative-current-too-low", "optional-voltage-above-9v", "spr-avs-missing",
                "pps-normative-range-missing", "pps-current-too-low", "epr-voltage-beyond-pdp", "epr-normative-object-missing",
                "current-beyond-pdp", "epr-avs-range-wrong",
            ]);
        }

        return rules;
    }
}
