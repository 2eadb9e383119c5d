using Portwitness.Negotiation;
using Portwitness.PowerDelivery.Limits;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Translation;

/// <summary>Descriptions of devices, and policies.</summary>
internal static class SinkTranslation
{
    public static Wire.SinkPolicy ToContract(this SinkPolicy policy) => new() { Name = policy.Name, Text = policy.Text };

    public static Wire.Sink ToContract(this SinkDescription sink)
    {
        Wire.Sink translated = new()
        {
            Name = sink.Name,
            Title = sink.Title,
            WishMw = sink.Wish.Milliwatts,
            Cable = sink.Cable.ToWord(),
            Edition = sink.Edition.ToText(),
            Words = sink.ToWords(),
        };
        translated.Fixed.AddRange(sink.Fixed.Select(ToContract));
        translated.Pps.AddRange(sink.Pps.Select(ToContract));
        translated.Avs.AddRange(sink.Avs.Select(ToContract));
        translated.Variable.AddRange(sink.Variable.Select(ToContract));
        if (sink.Minimum is { } minimum)
        {
            translated.MinimumMw = minimum.Milliwatts;
        }

        return translated;
    }

    private static Wire.SinkRange ToContract(SinkIntake intake)
    {
        Wire.SinkRange translated = new() { MinVoltageMv = intake.Minimum.Millivolts, MaxVoltageMv = intake.Maximum.Millivolts };
        if (intake.Most is { } most)
        {
            translated.MaxCurrentMa = most.Milliamperes;
        }

        return translated;
    }
}
