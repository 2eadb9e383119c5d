using Portwitness.Captures;
using Portwitness.Following.Links;

namespace Portwitness.Analysis.Conversation;

/// <summary>
/// Follows one capture from record to record and has its rules judge what it sees. It is told of a record after the
/// facts, lists and contracts that the record changes were taken in.
/// </summary>
internal interface ICaptureFollower
{
    /// <summary>Whether it wants to be told of GoodCRCs; every other message is one.</summary>
    bool HearsGoodCrcs => true;

    /// <summary>A message, whether its CRC was right or not.</summary>
    void OnMessage(in HeardMessage message);

    /// <summary>A reset signal is there; what was in force before it can still be asked for.</summary>
    void BeforeSignal(SignalRecord signal)
    {
    }

    /// <summary>A reset signal.</summary>
    void OnSignal(SignalRecord signal)
    {
    }

    /// <summary>A frame that could not be read to its end.</summary>
    void OnBrokenFrame(BrokenFrameRecord frame)
    {
    }

    /// <summary>A measurement.</summary>
    void OnMeasurement(MeasurementRecord measurement)
    {
    }

    /// <summary>An event at the bench.</summary>
    void OnEvent(EventRecord happened)
    {
    }

    /// <summary>
    /// The capture has ended. All that can be known of edition, cable and port is known now: what depends on it is
    /// judged here.
    /// </summary>
    void Complete();
}
