using System.Globalization;
using Portwitness.Analysis.Catalogue;
using Portwitness.Analysis.Conversation;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Tests.Rules;

/// <summary>Runs the capability rules on words, with facts as the fixtures write them.</summary>
internal static class RuleRun
{
    /// <summary>Everything that the rules report.</summary>
    public static IReadOnlyList<Finding> Capabilities(string facts, string words)
    {
        byte[] message = Message(words, facts, out SourceEvidence evidence, out ushort headerKnown);
        MessageView.TryRead(message, out MessageView view).Should().BeTrue();
        OfferedObject[] objects = new OfferedObject[MessageLimits.MaxExtendedObjects];
        int count = CapabilityChecker.ReadObjects(view, [], objects);
        FindingLog log = new() { File = "fixture" };
        string[] told = facts.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        Advertisement list = new(0, 1, view.Header.Kind, view.Header, headerKnown, [.. objects.AsSpan(0, count)], [], 0, null, PdpBasis.None)
        {
            InEprMode = told.Contains("epr-mode") ? true : null,
            AfterContract = told.Contains("contract"),
            ByPartner = told.Contains("partner"),
        };
        CapabilityChecker.Check(list, evidence, RuleSet.OfCaptures, log);
        return log.Findings;
    }

    /// <summary>A capability message as on the wire.</summary>
    public static byte[] Message(string words, string facts, out SourceEvidence evidence, out ushort headerKnown)
    {
        uint[] objects = CapabilityMessage.Words(words);
        (bool epr, bool sink) = (false, false);
        evidence = SourceEvidence.None;
        foreach (string fact in facts.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            evidence = fact switch
            {
                "-" => evidence,
                "single" => evidence with { Sharing = PowerSharing.None },
                "several" => evidence with { Sharing = PowerSharing.Possible },
                "in-use" => evidence with { Sharing = PowerSharing.InUse },
                "cable=3A" => evidence with { Cable = CableEvidence.ThreeAmpere },
                "cable=5A" => evidence with { Cable = CableEvidence.FiveAmpere },
                "cable=epr" => evidence with { Cable = CableEvidence.Epr },
                "cable=captive" => evidence with { Cable = CableEvidence.Captive },
                "epr" or "epr-mode" or "sink" or "contract" or "partner" or "uncounted" => evidence,
                _ when fact.StartsWith("declared=", StringComparison.Ordinal) => evidence with
                {
                    Pdp = Power.FromMilliwatts(int.Parse(fact[9..], CultureInfo.InvariantCulture) * 1000),
                    PdpBasis = PdpBasis.Declared,
                },
                _ when fact.StartsWith("pdp=", StringComparison.Ordinal) => evidence with
                {
                    Pdp = Power.FromMilliwatts(int.Parse(fact[4..], CultureInfo.InvariantCulture) * 1000),
                    PdpBasis = PdpBasis.Printed,
                },
                _ when EditionNames.TryParse(fact, out Editions edition) => evidence with { Editions = edition },
                _ => throw new ArgumentException($"\"{fact}\" is no fact of a fixture.", nameof(facts)),
            };
            epr |= fact is "epr" or "epr-mode";
            sink |= fact == "sink";
        }

        MessageKind kind = (epr, sink) switch
        {
            (true, true) => MessageKind.EPRSinkCapabilities,
            (true, _) => MessageKind.EPRSourceCapabilities,
            (_, true) => MessageKind.SinkCapabilities,
            _ => MessageKind.SourceCapabilities,
        };
        headerKnown = evidence.Editions == Editions.All ? (ushort)0xFF3F : ushort.MaxValue;
        headerKnown &= facts.Contains("uncounted", StringComparison.Ordinal) ? (ushort)0x8FFF : ushort.MaxValue;
        int revision = evidence.Editions == Editions.R20 ? 1 : 2;
        return CapabilityMessage.Bytes(kind, revision, objects);
    }
}
