using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Findings;
using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// What is wrong with the capability lists of a capture that still grows. A list is judged when it is new, and again when what is known of its
/// source has changed. Judging again is rationed, so that the cost of a capture grows with its length and not with its square.
/// </summary>
internal sealed class ListPreview(CaptureContext context, AdvertisementLog log)
{
    // Captures have a few lists: these are all up to date at once. Of hundreds, the rest follows with the next calls.
    private const int AgainPerCall = 16;

    private readonly List<Judged> _judged = [];
    private readonly Dictionary<(bool Alone, bool FromSource), SourceEvidence> _evidence = [];
    private int _next;
    private int _outdated;
    private int _largestMilliwatts;
    private IReadOnlyList<Finding> _findings = [];

    /// <summary>How often a list was judged.</summary>
    public long Judgements { get; private set; }

    /// <summary>Brings it up to date.</summary>
    /// <returns>What is found now; the same object as before when nothing has changed.</returns>
    public IReadOnlyList<Finding> Update()
    {
        if (_evidence.Count > 0 && (HasChanged() || context.Lists.LargestMilliwatts != _largestMilliwatts))
        {
            _outdated = _judged.Count;
            _evidence.Clear();
        }

        _largestMilliwatts = context.Lists.LargestMilliwatts;

        bool isNew = JudgeNew();
        if (JudgeAgain() || isNew)
        {
            FindingLog found = new() { File = context.Findings.File, Port = context.Port };
            foreach (Judged one in _judged)
            {
                (found.TimeUs, found.MessageIndex, found.Arrangement) = (one.List.TimeUs, one.List.MessageIndex, one.List.InUse);
                foreach ((Rule rule, Hit hit) in one.Hits)
                {
                    found.Report(rule, hit);
                }
            }

            _findings = found.Findings;
        }

        return _findings;
    }

    private bool JudgeNew()
    {
        bool isNew = _judged.Count < log.Lists.Count;
        while (_judged.Count < log.Lists.Count)
        {
            _judged.Add(Judge(log.Lists[_judged.Count]));
        }

        // In a full log the newest list displaces the one before.
        if (_judged.Count > 0 && _judged[^1].List.MessageIndex != log.Lists[^1].MessageIndex)
        {
            _judged[^1] = Judge(log.Lists[^1]);
            return true;
        }

        return isNew;
    }

    private bool JudgeAgain()
    {
        bool hasChanged = false;
        for (int ration = AgainPerCall; ration > 0 && _outdated > 0; ration--, _outdated--)
        {
            _next %= _judged.Count;
            Judged old = _judged[_next];
            if (old.Evidence != EvidenceFor(old.List))
            {
                _judged[_next] = Judge(old.List);
                hasChanged = true;
            }

            _next++;
        }

        return hasChanged;
    }

    private Judged Judge(Advertisement list)
    {
        Judgements++;
        HitList hits = new();
        SourceEvidence evidence = EvidenceFor(list);
        CapabilityChecker.Check(list, evidence, context.Rules, hits);
        return new Judged(list, evidence, hits.Hits);
    }

    private SourceEvidence EvidenceFor(Advertisement list)
    {
        (bool Alone, bool FromSource) kind = (PortFacts.IsAlone(list.InUse), list.Message.IsSourceList && !list.ByPartner);
        if (!_evidence.TryGetValue(kind, out SourceEvidence? known))
        {
            known = _evidence[kind] = context.Facts.EvidenceFor(kind.Alone, kind.FromSource);
        }

        return context.Lists.EvidenceFor(list, known);
    }

    private bool HasChanged() => _evidence.Any(known => context.Facts.EvidenceFor(known.Key.Alone, known.Key.FromSource) != known.Value);

    private sealed record Judged(Advertisement List, SourceEvidence Evidence, IReadOnlyList<(Rule Rule, Hit Hit)> Hits);

    private sealed class HitList : IHitSink
    {
        public List<(Rule Rule, Hit Hit)> Hits { get; } = [];

        public void Report(Rule rule, in Hit hit) => Hits.Add((rule, hit));
    }
}
