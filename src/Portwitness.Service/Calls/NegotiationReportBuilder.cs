using System.Collections.Immutable;
using Portwitness.Analysis.Findings;
using Portwitness.Captures;
using Portwitness.Negotiation;
using Portwitness.Service.Translation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>Puts one report of negotiations together and holds it to its bounds.</summary>
internal sealed class NegotiationReportBuilder
{
    /// <summary>As many pairs of an offer and a device are listed.</summary>
    public const int MaxNegotiations = 2_000;

    private static readonly string[] Cautions =
    [
        "What a device asks for is its own choice; the stated policy is an assumption, and no product is known to follow it.",
        "What is offered is not yet what is given: a load and a meter show that. Above 20 V connect and unplug without load: contacts arc.",
    ];

    private readonly SinkPolicy _policy;
    private readonly Wire.NegotiationReport _report;
    private bool _sinksAreFaulty;

    public NegotiationReportBuilder(SinkPolicy policy, string source)
    {
        _policy = policy;
        _report = new Wire.NegotiationReport { Source = source, Policy = policy.ToContract() };
        _report.Cautions.AddRange(Cautions);
    }

    /// <summary>Reads the descriptions; with a faulty one nothing is negotiated.</summary>
    public ImmutableArray<SinkDescription> Read(IEnumerable<Wire.SinkInput> texts)
    {
        List<SinkDescription> sinks = [];
        foreach (Wire.SinkInput text in texts)
        {
            SinkList list = text.FormCase == Wire.SinkInput.FormOneofCase.Yaml ? SinkDescriptionReader.OfYaml(text.Yaml) : SinkDescriptionReader.OfWords(text.Words);
            sinks.AddRange(list.Sinks);
            AddFaults(list.Faults, text.File);
            _sinksAreFaulty |= !list.Faults.IsEmpty;
        }

        if (sinks.Count > SinkDescriptionReader.MaxSinks)
        {
            AddFaults([AnalysisFaultCodes.Unlisted(sinks.Count - SinkDescriptionReader.MaxSinks, "devices", SinkDescriptionReader.MaxSinks)], "");
        }

        ImmutableArray<SinkDescription> taken = [.. sinks.Take(SinkDescriptionReader.MaxSinks)];
        _report.Sinks.AddRange(taken.Select(SinkTranslation.ToContract));
        return taken;
    }

    public void AddFaults(IEnumerable<CaptureFault> faults, string file) =>
        _report.Faults.AddRange(faults.Select(fault => fault.ToContract(file)));

    public void Negotiate(ImmutableArray<SourceOffer> offers, ImmutableArray<SinkDescription> sinks)
    {
        if (_sinksAreFaulty || sinks.IsEmpty)
        {
            return;
        }

        if (offers.IsEmpty)
        {
            AddFaults(
                [new CaptureFault(
                    0, 0, NegotiationFaultCodes.NothingOffered,
                    "no capability list of a source, and no rating of USB PD, was found; nothing can be asked for")],
                _report.Source);
        }

        int most = Math.Max(1, MaxNegotiations / sinks.Length);
        _report.Offers.AddRange(offers.Take(most).Select(offer =>
            offer.ToContract(sinks.Select(sink => Negotiator.Of(offer, sink, _policy)))));
        if (offers.Length > most)
        {
            AddFaults([AnalysisFaultCodes.Unlisted(offers.Length - most, "arrangements", most)], _report.Source);
        }
    }

    public Wire.NegotiationReport Complete()
    {
        _report.Unusable = _report.Offers.Count == 0;
        return _report;
    }
}
