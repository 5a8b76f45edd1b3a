package rampwright.acquisition.modbus;

import com.ghgande.j2mod.modbus.msg.ExceptionResponse;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadCoilsResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersResponse;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersResponse;
import com.ghgande.j2mod.modbus.util.BitVector;
import java.util.function.IntUnaryOperator;
import rampwright.acquisition.device.DeviceFault;
import rampwright.acquisition.device.FaultKind;
import rampwright.acquisition.map.ReadBlock;

/**
 * One question to a device, of the four functions that read. This is the only place where a message
 * to a device is made; there is no way to make another one.
 */
record ReadQuestion(int unit, int function, int address, int count) {
  ReadQuestion {
    int most = function <= 2 ? ReadBlock.MOST_BITS : ReadBlock.MOST_REGISTERS;
    if (function < 1 || function > 4 || count < 1 || count > most) {
      throw new IllegalArgumentException(
          "function " + function + " of " + count + "; only functions 1 to 4 are ever sent");
    }
  }

  ModbusRequest message() {
    ModbusRequest message =
        switch (function) {
          case 1 -> new ReadCoilsRequest(address, count);
          case 2 -> new ReadInputDiscretesRequest(address, count);
          case 3 -> new ReadMultipleRegistersRequest(address, count);
          default -> new ReadInputRegistersRequest(address, count);
        };
    message.setUnitID(unit);
    return message;
  }

  /** The words or bits of the answer, when it is one to this question. */
  int[] answer(ModbusResponse response) throws DeviceFault {
    if (response.getUnitID() != unit) {
      throw new DeviceFault(
          FaultKind.WRONG_ANSWER,
          "unit " + response.getUnitID() + " answered a question to unit " + unit);
    }
    if (response instanceof ExceptionResponse refusal) {
      int code = refusal.getExceptionCode();
      throw new DeviceFault(
          FaultKind.REFUSED,
          "exception "
              + code
              + " ("
              + meaning(code)
              + ") to function "
              + function
              + ", address "
              + address
              + ", "
              + count
              + " long");
    }
    int[] words = new int[count];
    if (response instanceof ReadMultipleRegistersResponse holding && function == 3) {
      fill(words, holding.getWordCount(), holding::getRegisterValue);
    } else if (response instanceof ReadInputRegistersResponse input && function == 4) {
      fill(words, input.getWordCount(), input::getRegisterValue);
    } else if (response instanceof ReadCoilsResponse coils && function == 1) {
      bits(words, coils.getCoils());
    } else if (response instanceof ReadInputDiscretesResponse inputs && function == 2) {
      bits(words, inputs.getDiscretes());
    } else {
      throw new DeviceFault(
          FaultKind.WRONG_ANSWER,
          "an answer of function "
              + response.getFunctionCode()
              + " to a question of function "
              + function);
    }
    return words;
  }

  private void fill(int[] words, int had, IntUnaryOperator word) throws DeviceFault {
    if (had != count) {
      throw new DeviceFault(
          FaultKind.WRONG_ANSWER, had + " registers answered where " + count + " were asked for");
    }
    for (int i = 0; i < count; i++) {
      words[i] = word.applyAsInt(i) & 0xffff;
    }
  }

  private void bits(int[] words, BitVector bits) throws DeviceFault {
    // An answer of bits is padded to whole bytes (Application Protocol V1.1b3, 6.1).
    if (bits.byteSize() != (count + 7) / 8) {
      throw new DeviceFault(
          FaultKind.WRONG_ANSWER,
          bits.byteSize() + " bytes of bits answered where " + count + " bits were asked for");
    }
    for (int i = 0; i < count; i++) {
      words[i] = bits.getBit(i) ? 1 : 0;
    }
  }

  /** Modbus Application Protocol V1.1b3, section 7. */
  private static String meaning(int code) {
    return switch (code) {
      case 1 -> "illegal function";
      case 2 -> "illegal data address";
      case 3 -> "illegal data value";
      case 4 -> "device failure";
      case 5 -> "acknowledge, still working";
      case 6 -> "device busy";
      case 8 -> "memory parity error";
      case 10 -> "gateway path not to be had";
      case 11 -> "device behind the gateway does not answer";
      default -> "unknown";
    };
  }
}
