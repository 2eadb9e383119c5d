using System.Collections.Immutable;
using Portwitness.Captures;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Printed;

namespace Portwitness.Negotiation;

/// <summary>Takes a label at its word: the lists that its ports would send if they offered what is printed.</summary>
public static class LabelOffers
{
    private const int MaxSprMillivolts = 21_000;
    private const int MaxAvsMinimum = 25_500;

    /// <summary>One offer for each output that prints ratings of USB PD.</summary>
    /// <param name="label">The label.</param>
    /// <param name="faults">Ratings that no object expresses; they are left out.</param>
    public static ImmutableArray<SourceOffer> Of(Label label, out ImmutableArray<CaptureFault> faults)
    {
        List<CaptureFault> unused = [];
        ImmutableArray<SourceOffer> offers =
        [
            .. label.Outputs.Select(output => Of(output, unused)).OfType<SourceOffer>().Select(offer => offer with { IsUnchecked = label.IsUnchecked }),
        ];
        faults = [.. unused];
        return offers;
    }

    private static SourceOffer? Of(PrintedOutput output, List<CaptureFault> unused)
    {
        if (IsLegacyPort(output.Port))
        {
            unused.Add(new CaptureFault(
                output.At.Line, output.At.Column, NegotiationFaultCodes.RatingUnused,
                $"{output.Port} is a USB-A port, which has no USB PD; it was passed over"));
            return null;
        }

        List<uint> spr = [];
        List<uint> epr = [];
        foreach (PrintedFixed mode in output.Fixed.OrderBy(static mode => mode.Voltage))
        {
            Add(mode.At, mode.Text, Protocols.IsPowerDelivery(mode.Protocol) ? Word(mode) : null, mode.Voltage > Electrical.SprMaximumFixed);
        }

        // AVS before PPS, then by the upper end (R3.2v1.1, 6.4.1.4).
        foreach (PrintedRange range in output.Ranges.OrderBy(static range => !IsAvs(range)).ThenBy(static range => range.Maximum))
        {
            Add(range.At, range.Text, Protocols.IsPowerDelivery(range.Kind) ? Word(range, output.Maximum?.Power) : null, IsEprAvs(range));
        }

        if (spr.Count == 0)
        {
            return null;
        }

        if (epr.Count > 0)
        {
            spr[0] = new FixedSourceSupply(spr[0]).With(FixedSourceSupply.EprCapableField, true).Raw;
        }

        return new SourceOffer
        {
            Port = output.Port,
            InUse = [output.Port],
            File = "label",
            Spr = Objects(spr),
            Epr = epr.Count == 0 ? [] : Objects([.. spr, .. Enumerable.Repeat(0u, MessageLimits.MaxSprObjects - spr.Count), .. epr]),
            EprCapable = epr.Count > 0,
            Pdp = OtherProtocolRatings.MaximumOfPowerDelivery(output)?.Power,
            HasCaptiveCable = output.IsCaptiveCable,
            HidesObjects = output.Incomplete,
            IsPrinted = true,
        };

        void Add(Place at, string text, uint? word, bool isEpr)
        {
            List<uint> list = isEpr ? epr : spr;
            int room = isEpr ? MessageLimits.LastCodableObjectPosition - MessageLimits.MaxSprObjects : MessageLimits.MaxSprObjects;
            if (word is { } known && list.Count < room)
            {
                list.Add(known);
            }
            else
            {
                unused.Add(new CaptureFault(
                    at.Line, at.Column, NegotiationFaultCodes.RatingUnused, $"\"{text.Trim()}\" is no object of USB PD and was passed over"));
            }
        }
    }

    // Down to the step of the object's fields: what is printed beyond cannot be asked for.
    private static uint? Word(PrintedFixed mode) =>
        mode.Voltage.Millivolts % 50 == 0 && mode.Voltage.Millivolts > 0 && mode.Voltage <= Electrical.EprCableMaximumVoltage
        && Down(mode.Current, SinkRequest.FixedCurrentStep) is { } current
            ? FixedSourceSupply.Create(mode.Voltage, current).Raw : null;

    // A range whose corner is beyond the port's printed maximum is one of constant power.
    private static uint? Word(PrintedRange range, Power? maximum)
    {
        if (Down(range.Current, SinkRequest.FixedCurrentStep) is not { } current || range.Minimum > range.Maximum
            || range.Minimum.Millivolts % 100 != 0 || range.Maximum.Millivolts % 100 != 0)
        {
            return null;
        }

        if (IsEprAvs(range))
        {
            int pdp = Math.Min((range.Maximum * current).Milliwatts / 1000 * 1000, Electrical.EprMaximumPdp.Milliwatts);
            return EprAvsSourceSupply.Create(range.Minimum, range.Maximum, Power.FromMilliwatts(pdp)).Raw;
        }

        if (IsAvs(range))
        {
            bool to20 = range.Maximum == Electrical.SprMaximumFixed;
            return range.Minimum == SprAvsSourceSupply.MinimumVoltage && (to20 || range.Maximum.Millivolts == 15_000)
                ? SprAvsSourceSupply.Create(current, to20 ? current : Current.Zero).Raw : null;
        }

        return range.Maximum.Millivolts <= MaxSprMillivolts && Down(current, SinkRequest.AdjustableCurrentStep) is { } steps
            ? PpsSourceSupply.Create(range.Minimum, range.Maximum, steps, powerLimited: range.Maximum * steps > maximum).Raw : null;
    }

    // R3.0 and later define PD for Type-C ports only (from memory).
    private static bool IsLegacyPort(string port) => PortNames.Key(port) is ['A', .. var number] && number.All(char.IsAsciiDigit);

    private static bool IsAvs(PrintedRange range) => range.Kind?.Contains("AVS", StringComparison.OrdinalIgnoreCase) == true;

    private static bool IsEprAvs(PrintedRange range) => IsAvs(range) && range.Maximum > Electrical.SprMaximumFixed
        && range.Maximum <= Electrical.EprCableMaximumVoltage && range.Minimum.Millivolts <= MaxAvsMinimum;

    private static Current? Down(Current current, int step)
    {
        int down = current.Milliamperes / step * step;
        return down > 0 && down <= Electrical.ConnectorMaximum.Milliamperes ? Current.FromMilliamperes(down) : null;
    }

    private static ImmutableArray<OfferedObject> Objects(IReadOnlyList<uint> words) =>
        [.. words.Select(static (word, index) => new OfferedObject(index + 1, word, uint.MaxValue))];
}
