using Portwitness.Analysis.Measuring;
using Portwitness.Analysis.Rules;
using Portwitness.Captures;
using Portwitness.Following.Links;
using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;

namespace Portwitness.Analysis.Conversation;

/// <summary>Holds what a source says of its output, in PPS_Status and Status, beside what was measured shortly before.</summary>
internal sealed class StatusFollower(CaptureContext context) : ICaptureFollower
{
    private readonly RecentSamples _recent = new();
    private bool _isMeasured;

    /// <inheritdoc/>
    public bool HearsGoodCrcs => false;

    /// <inheritdoc/>
    public void OnMessage(in HeardMessage message)
    {
        if (!_isMeasured || message.Block is not { } block || message.Sop != SopKind.Sop || !message.FromSourceOrPlug
            || message.CrcOk == false || !message.Known.IsEmpty)
        {
            return;
        }

        if (message.Kind == MessageKind.PPSStatus)
        {
            PpsStatusBlock status = new(block);
            Judge(message, Case(message) with { Told = status.OutputVoltage, ToldCurrent = status.OutputCurrent, Limits = status.CurrentLimit });
        }
        else if (message.Kind == MessageKind.Status)
        {
            Judge(message, Case(message) with { Limits = new StatusBlock(block).CurrentLimit });
        }
    }

    /// <inheritdoc/>
    public void OnMeasurement(MeasurementRecord measurement)
    {
        _isMeasured = true;
        _recent.Add(measurement.TimeUs, measurement.VbusMillivolts, measurement.IbusMilliamperes);
    }

    /// <inheritdoc/>
    public void Complete()
    {
        // Each status is judged as it comes.
    }

    private StatusCase Case(in HeardMessage message) => new(
        message.Kind, context.Instrument, _recent.VoltsUntil(message.TimeUs), _recent.AmpsUntil(message.TimeUs))
    {
        Terms = Terms(),
        LostInCable = context.Instrument.Point == MeasuringPoint.Source ? 0 : VbusLimits.CableDrop.Millivolts,
    };

    // While another request is on its way the limit may be of either.
    private VbusTerms? Terms() => context.Contracts is { Open: null, Granted: { ObjectPosition: { } position } granted } contracts
        && position >= 1 && position <= contracts.InForce.Length && context.Track.States.ListIsSeen
        ? VbusTerms.Of(granted, contracts.InForce[position - 1])
        : null;

    private void Judge(in HeardMessage message, StatusCase seen)
    {
        IHitSink hits = context.Role.IsPartners(message.View.Header, message.HeaderKnown) ? new PartnerHits(context.Findings)
            : context.Role.IsCertain ? context.Findings : new DoubtedHits(context.Findings, CaptureSteps.WholeSwap);
        context.FindAt(message.TimeUs, message.Index);
        foreach (StatusRule rule in context.Rules.Status)
        {
            rule.Check(seen, hits);
        }
    }
}
