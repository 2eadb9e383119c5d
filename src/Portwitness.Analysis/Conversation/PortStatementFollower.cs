using Portwitness.Analysis.Profile;
using Portwitness.Analysis.Rules;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;

namespace Portwitness.Analysis.Conversation;

/// <summary>Collects what the port says of itself, and has the rules over several messages judge it at the end.</summary>
internal sealed class PortStatementFollower(CaptureContext context) : ICaptureFollower, IPlacedHitSink
{
    private const int Most = 1000;

    private readonly List<RatingStatement> _ratings = [];

    /// <inheritdoc/>
    public bool HearsGoodCrcs => false;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        if (message.Sop != SopKind.Sop)
        {
            return;
        }

        bool isPorts = context.Role.IsCertain && !context.Role.IsPartners(message.View.Header, message.HeaderKnown);
        if (!isPorts || message.CrcOk == false || !message.Known.IsEmpty)
        {
            return;
        }

        if (message.Kind == MessageKind.SourceInfo && message.View is { CompleteObjects: 1, ClaimedObjects: 1 })
        {
            Add(new SourceInfoObject(message.View.ObjectAt(0)), PlaceOf(message));
        }
        else if (message.Kind == MessageKind.SourceCapabilitiesExtended && message.Block is { } block)
        {
            Add(new SourceCapabilitiesExtendedBlock(block), PlaceOf(message));
        }
    }

    /// <inheritdoc/>
    public void Complete()
    {
        PortStatements statements = new()
        {
            Lists = [.. context.Lists.Received.Where(list => list.IsOwn)],
            Infos = context.Infos,
            Ratings = _ratings,
            EvidenceFor = context.Lists.EvidenceFor,
            Printed = context.Options.PrintedPdp,
        };
        foreach (PortRule rule in context.Rules.Ports)
        {
            rule.Check(statements, this);
        }
    }

    void IPlacedHitSink.Report(Rule rule, in Hit hit, in StatementPlace place)
    {
        context.FindAt(place.TimeUs, place.MessageIndex, place.InUse);
        context.Findings.Report(rule, hit);
    }

    private StatementPlace PlaceOf(in HeardMessage message) => new(message.TimeUs, message.Index, context.Arrangement.InUse);

    private void Add(SourceInfoObject info, StatementPlace place)
    {
        Advertisement? spr = Latest(MessageKind.SourceCapabilities);
        Advertisement? epr = Latest(MessageKind.EPRSourceCapabilities);
        SourceInfoStatement statement = new(place, info, spr, epr, context.Track.States.ListIsSeen);
        List<SourceInfoStatement> infos = context.Infos;
        if (infos.Count < Most && (infos.Count == 0 || infos[^1] with { Place = place } != statement))
        {
            infos.Add(statement);
        }
    }

    private void Add(SourceCapabilitiesExtendedBlock extended, StatementPlace place)
    {
        if (extended.SprSourcePdp is { } spr && _ratings.Count < Most)
        {
            RatingStatement statement = new(place, spr, extended.EprSourcePdp);
            if (_ratings.Count == 0 || _ratings[^1] with { Place = place } != statement)
            {
                _ratings.Add(statement);
            }
        }
    }

    // A list that came again is the latest of its kind though it stands earlier.
    private Advertisement? Latest(MessageKind kind)
    {
        for (int index = context.Lists.Received.Count - 1; index >= 0; index--)
        {
            Advertisement list = context.Lists.Received[index];
            if (list.Message == kind && list.IsOwn)
            {
                return list.Attach == context.Lists.Attach ? list : null;
            }
        }

        return null;
    }
}
