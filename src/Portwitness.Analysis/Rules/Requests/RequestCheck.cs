using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Requests;

/// <summary>What can be wrong with a request.</summary>
internal enum RequestFaultKind
{
    Position,
    Amount,
    Voltage,
    Step,
    Copy,
    Mode,
}

/// <summary>One thing that is wrong with a request.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Text">What the sink does, after "The sink".</param>
/// <param name="Expected">What would have been right.</param>
/// <param name="Observed">What was asked.</param>
internal readonly record struct RequestFault(RequestFaultKind Kind, Phrase Text, Phrase Expected, Phrase Observed)
{
    /// <summary>Editions that see a fault in it.</summary>
    public Editions WrongUnder { get; init; } = Editions.All;
}

/// <summary>Holds a request against the list in force (R3.2v1.1, 6.4.2, 6.4.9, 6.4.10.3).</summary>
internal static class RequestCheck
{
    private const int AvsStep = 100;
    private const uint Bit31 = 0x80000000;

    /// <summary>What is wrong; empty for a valid request, null when list or object are not known.</summary>
    public static IReadOnlyList<RequestFault>? Of(in ObservedRequest request)
    {
        if (request.Offers.IsEmpty)
        {
            return null;
        }

        List<RequestFault> faults = [];
        CheckMode(request, faults);
        int position = request.Request.ObjectPosition;
        int last = request.Message == MessageKind.Request
            ? Math.Min(request.Offers.Length, MessageLimits.MaxSprObjects)
            : request.Offers.Length;
        if (position < 1 || position > last || request.Offers[position - 1].IsZero)
        {
            // In R2.0 and R3.0 the position has three bits, and bit 31 is reserved: a source of those ignores it.
            bool threeBits = request.Message == MessageKind.Request && (request.Request.Raw & Bit31) != 0;
            faults.Add(new RequestFault(
                RequestFaultKind.Position, $"asks for object {position}, which the list does not have", $"1 to {last}",
                $"{position}")
            {
                WrongUnder = threeBits ? Editions.R31 | Editions.R32 : Editions.All,
            });
            return faults;
        }

        OfferedObject offered = request.Offers[position - 1];
        if (!offered.KindIsKnown || offered.Kind == PowerObjectKind.Reserved)
        {
            return faults.Count > 0 ? faults : null;
        }

        CheckTerms(request.Request, offered, faults);
        if (request.Copy is { } copy && offered.Known == uint.MaxValue && copy.Raw != offered.Raw)
        {
            faults.Add(new RequestFault(
                RequestFaultKind.Copy, $"sends a copy of object {position} that is another word", $"0x{offered.Raw:X8}",
                $"0x{copy.Raw:X8}"));
        }

        return faults;
    }

    private static void CheckMode(in ObservedRequest request, List<RequestFault> faults)
    {
        bool isEprRequest = request.Message == MessageKind.EPRRequest;
        if (request.EprMode is { } mode && mode != isEprRequest)
        {
            faults.Add(new RequestFault(
                RequestFaultKind.Mode, $"sends {request.Message} in {(mode ? "EPR" : "SPR")} mode",
                $"{(mode ? MessageKind.EPRRequest : MessageKind.Request)}", $"{request.Message}"));
        }
    }

    private static void CheckTerms(RequestObject request, OfferedObject offered, List<RequestFault> faults)
    {
        RequestTerms terms = RequestTerms.Read(request, offered.AsSource());
        if (terms.Shape == RequestShape.Battery)
        {
            Power most = offered.AsSource().AsBattery().MaximumPower;
            if (offered.Knows(BatterySourceSupply.PowerField) && terms.Power > most)
            {
                faults.Add(Beyond(offered, $"{most}", $"{terms.Power}"));
            }

            return;
        }

        if (terms.Shape is RequestShape.Pps or RequestShape.Avs && terms.Voltage is { } voltage)
        {
            CheckVoltage(voltage, terms.Shape, offered, faults);
        }

        if (terms.Current is { } current && offered.MaximumCurrentAt(terms.Voltage) is { } limit && current > limit)
        {
            faults.Add(Beyond(offered, $"{limit}", $"{current}"));
        }
    }

    private static void CheckVoltage(Voltage voltage, RequestShape shape, OfferedObject offered, List<RequestFault> faults)
    {
        if (voltage < offered.LowestVoltage() || voltage > offered.HighestVoltage())
        {
            faults.Add(new RequestFault(
                RequestFaultKind.Voltage, $"asks for {voltage} of {offered}",
                $"{offered.LowestVoltage()} to {offered.HighestVoltage()}", $"{voltage}"));
        }

        if (shape == RequestShape.Avs && voltage.Millivolts % AvsStep != 0)
        {
            faults.Add(new RequestFault(
                RequestFaultKind.Step, $"asks for {voltage} of AVS, which goes in steps of 100 mV", "a multiple of 100 mV",
                $"{voltage}"));
        }
    }

    private static RequestFault Beyond(OfferedObject offered, Phrase most, Phrase asked) => new(
        RequestFaultKind.Amount, $"asks for {asked} of {offered}", $"at most {most}", asked);
}
