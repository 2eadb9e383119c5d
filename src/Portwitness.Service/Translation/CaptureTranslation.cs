using Portwitness.Analysis;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Following.Contracts;
using Portwitness.PowerDelivery.Limits;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>One capture's analysis.</summary>
internal static class CaptureTranslation
{
    public static Wire.DecodedCapture ToContract(this CaptureAnalysis analysis)
    {
        Wire.DecodedCapture translated = new()
        {
            File = analysis.File,
            Port = analysis.Port,
            Edition = analysis.Editions.ToText(),
            Format = analysis.Format ?? "",
            MessageCount = analysis.MessageCount,
            Cable = analysis.Cable,
            Rules = analysis.Rules.ToContract(),
        };
        translated.Arrangement.AddRange(analysis.Arrangement);
        translated.Advertisements.AddRange(analysis.Advertisements.Select(ToContract));
        translated.Contracts.AddRange(analysis.Contracts.Select(ToContract));
        translated.Timeline.AddRange(analysis.Timeline.Select(TimelineTranslation.ToContract));
        translated.Facts.AddRange(analysis.Facts.Select(FactTranslation.ToContract));
        translated.Explanation = analysis.Explanation?.ToContract();
        translated.Findings.AddRange(analysis.Findings.Select(FindingTranslation.ToContract));
        translated.Faults.AddRange(analysis.Faults.Select(fault => fault.ToContract(analysis.File)));
        translated.NextSteps.AddRange(analysis.NextSteps.Select(PhraseText.Of).Distinct());
        return translated;
    }

    public static Wire.Advertisement ToContract(this Advertisement advertisement)
    {
        Wire.Advertisement translated = new()
        {
            TimeUs = advertisement.TimeUs,
            Message = advertisement.Message.Name,
            MessageIndex = advertisement.MessageIndex,
            Repeats = advertisement.Repeats,
            PdpBasis = advertisement.PdpBasis.ToText(),
        };
        translated.Objects.AddRange(advertisement.Objects.Select(offered => offered.ToContract(advertisement.Message)));
        if (advertisement.Pdp is { } pdp)
        {
            translated.PdpMw = pdp.Milliwatts;
        }

        return translated;
    }

    public static Wire.Contract ToContract(this ContractAttempt attempt)
    {
        Wire.Contract translated = new()
        {
            RequestedUs = attempt.RequestedUs,
            Outcome = attempt.Outcome.ToContract(),
            MessageIndex = attempt.MessageIndex,
            EndedBy = attempt.End.ToContract(),
            Renewals = attempt.Renewals,
            Mode = attempt.InEprMode ? "EPR" : "SPR",
        };
        if (attempt.EndedUs is { } ended)
        {
            translated.EndedUs = ended;
        }

        if (attempt.AcceptedUs is { } accepted)
        {
            translated.AcceptedUs = accepted;
        }

        if (attempt.ReadyUs is { } ready)
        {
            translated.ReadyUs = ready;
        }

        if (attempt.ObjectPosition is { } position)
        {
            translated.ObjectPosition = position;
        }

        if (attempt.Voltage is { } voltage)
        {
            translated.VoltageMv = voltage.Millivolts;
        }

        if (attempt.Current is { } current)
        {
            translated.CurrentMa = current.Milliamperes;
        }

        if (attempt.Power is { } power)
        {
            translated.PowerMw = power.Milliwatts;
        }

        if (attempt.CapabilityMismatch is { } mismatch)
        {
            translated.CapabilityMismatch = mismatch;
        }

        translated.Measured = attempt.Measured?.ToContract();
        return translated;
    }

    private static Wire.MeasuredPower ToContract(this MeasuredPower measured)
    {
        Wire.MeasuredPower translated = new()
        {
            Samples = measured.Samples,
            LeastMv = measured.Least.Millivolts,
            MeanMv = measured.Mean.Millivolts,
            MostMv = measured.Most.Millivolts,
        };
        if (measured.MostCurrent is { } current)
        {
            translated.MostCurrentMa = current.Milliamperes;
        }

        if (measured.Allowed is { } allowed)
        {
            (translated.AllowedLeastMv, translated.AllowedMostMv) = (allowed.Minimum.Millivolts, allowed.Maximum.Millivolts);
        }

        return translated;
    }
}
